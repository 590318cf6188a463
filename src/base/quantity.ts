/**
 * Quantities as people write them, `0.694 mΩ`, to SI numbers and back. Scaling is done on the decimal text,
 * never by a float factor: `0.694 mΩ` is the double nearest 0.000694, and reading what `formatQuantity`
 * wrote gives the same bits.
 */

/** What a number measures, and the SI unit suffix that it puts behind a field's name. */
export const suffixOf = {
  voltage: 'V',
  current: 'A',
  resistance: 'ohm',
  capacitance: 'F',
  inductance: 'H',
  length: 'm',
  speed: 'm_per_s',
  power: 'W',
  apparent_power: 'VA',
  energy: 'J',
  time: 's',
  frequency: 'Hz',
  ratio: 'ratio',
  count: 'count',
  amount: 'amount',
  mass: 'kg',
  current_rate: 'A_per_s',
  power_rate: 'W_per_s',
  voltage_gain: 'A_per_V',
  integral_gain: 'A_per_Vs',
  inverse_power: 'per_W',
  temperature: 'degC',
  temperature_rise: 'K',
  thermal_resistance: 'K_per_W',
} as const;

export type Dimension = keyof typeof suffixOf;

/** How each dimension is printed, how it is called in a sentence, and an example of how it is written. */
const printed: Readonly<
  Record<Dimension, { readonly unit: string; readonly name: string; readonly example: string }>
> = {
  voltage: { unit: 'V', name: 'a voltage', example: '50.25 V' },
  current: { unit: 'A', name: 'a current', example: '420 A' },
  resistance: { unit: 'Ω', name: 'a resistance', example: '0.694 mΩ or 0.694 mohm' },
  capacitance: { unit: 'F', name: 'a capacitance', example: '22 mF' },
  length: { unit: 'm', name: 'a length', example: '100 mm' },
  speed: { unit: 'm/s', name: 'a speed', example: '2 m/s' },
  inductance: { unit: 'H', name: 'an inductance', example: '35 nH' },
  power: { unit: 'W', name: 'a power', example: '36 kW' },
  apparent_power: { unit: 'VA', name: 'an apparent power', example: '10 MVA' },
  energy: { unit: 'J', name: 'an energy', example: '84 kJ or 5 kWh' },
  time: { unit: 's', name: 'a time', example: '0.5 ms' },
  frequency: { unit: 'Hz', name: 'a frequency', example: '10 Hz' },
  ratio: { unit: '', name: 'a ratio', example: '0.7 or 70 %' },
  count: { unit: '', name: 'a count', example: '5' },
  amount: { unit: '', name: 'an amount', example: '1250' },
  mass: { unit: 'kg', name: 'a mass', example: '24 kg' },
  current_rate: { unit: 'A/s', name: 'a rate of current', example: '1 A/µs' },
  power_rate: { unit: 'W/s', name: 'a rate of power', example: '20 kW/ms' },
  voltage_gain: { unit: 'A/V', name: 'a gain', example: '276 A/V' },
  integral_gain: { unit: 'A/(V s)', name: 'an integral gain', example: '3.2e5 A/(V s)' },
  inverse_power: { unit: '1/W', name: 'an inverse power', example: '2.2e-7 1/W' },
  temperature: { unit: '°C', name: 'a temperature', example: '25 °C' },
  temperature_rise: { unit: 'K', name: 'a temperature rise', example: '15 K' },
  thermal_resistance: { unit: 'K/W', name: 'a thermal resistance', example: '0.125 K/W' },
};

/** Base units as written, with what they are made of: a symbol, a power of ten and a whole factor. */
export const bases: Readonly<Record<string, readonly [symbol: string, exponent: number, factor: number]>> = {
  V: ['V', 0, 1],
  A: ['A', 0, 1],
  Ω: ['Ω', 0, 1],
  ohm: ['Ω', 0, 1],
  Ohm: ['Ω', 0, 1],
  F: ['F', 0, 1],
  H: ['H', 0, 1],
  m: ['m', 0, 1],
  W: ['W', 0, 1],
  VA: ['VA', 0, 1],
  J: ['J', 0, 1],
  Wh: ['J', 0, 3600],
  s: ['s', 0, 1],
  Hz: ['Hz', 0, 1],
  K: ['K', 0, 1],
  g: ['kg', -3, 1],
};

export const prefixes: Readonly<Record<string, number>> = {
  p: -12,
  n: -9,
  µ: -6,
  u: -6,
  m: -3,
  k: 3,
  M: 6,
  G: 9,
  T: 12,
};

/** Units that stand alone and take no prefix. */
export const whole: Readonly<Record<string, readonly [signature: string, exponent: number, factor: number]>> =
  {
    '': ['', 0, 1],
    '%': ['', -2, 1],
    min: ['s', 0, 60],
    h: ['s', 0, 3600],
    // Of 365.25 days, as lives are told.
    year: ['s', 0, 31_557_600],
    years: ['s', 0, 31_557_600],
    '°C': ['°C', 0, 1],
    degC: ['°C', 0, 1],
  };

export const dimensionOf: Readonly<Record<string, Dimension>> = {
  V: 'voltage',
  A: 'current',
  Ω: 'resistance',
  F: 'capacitance',
  H: 'inductance',
  m: 'length',
  'm/s': 'speed',
  W: 'power',
  VA: 'apparent_power',
  J: 'energy',
  s: 'time',
  Hz: 'frequency',
  'A/s': 'current_rate',
  'W/s': 'power_rate',
  'A/V': 'voltage_gain',
  'A/V/s': 'integral_gain',
  '1/W': 'inverse_power',
  '°C': 'temperature',
  K: 'temperature_rise',
  kg: 'mass',
  'K/W': 'thermal_resistance',
};

interface UnitReading {
  readonly signature: string;
  readonly exponent: number;
  readonly factor: number;
}

/** What became of a text: the SI value, or what was found and what would have been right. */
export type QuantityReading =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly found: string; readonly expected: string; readonly mend: string };

const numberText = /^([+-]?)(\d+\.?\d*|\.\d+)(?:[eE]([+-]?\d+))?/;

/**
 * Reads a quantity of the given dimension [SI unit of that dimension]. Everything but ratios, counts and amounts
 * needs its unit; both micro signs, both ohm signs, `u` and `ohm` are understood.
 */
export function readQuantity(text: string, dimension: Dimension): QuantityReading {
  const { name, example } = printed[dimension];
  const refuse = (found: string, mend = `write it like ${example}`): QuantityReading => {
    return { ok: false, found, expected: `${name}, for example ${example}`, mend };
  };
  const plain = text.trim().replaceAll('\u2212', '-');
  if (plain === '') return refuse('nothing');
  const match = numberText.exec(plain);
  if (match === null) return refuse(`${text.trim()}, which does not begin with a number`);
  const [head, sign, mantissa, exponentText] = match as unknown as [string, string, string, string?];
  const unitText = plain.slice(head.length).trim();
  const unit = readUnit(unitText);
  if (unit === null) return refuse(`${text.trim()}, with a unit that is not known (${unitText})`);

  if (isBare(dimension)) {
    if (unit.signature !== '') return refuse(`${text.trim()}, which is ${called(unit.signature)}`);
    if (dimension !== 'ratio' && unitText !== '') return refuse(`${text.trim()}, a share`);
  } else if (unit.signature === '') {
    return refuse(`${text.trim()}, a number without a unit`);
  } else if (dimensionOf[unit.signature] !== dimension) {
    return refuse(`${text.trim()}, which is ${called(unit.signature)}`);
  }

  const value = scaled(sign, mantissa, Number(exponentText ?? 0) + unit.exponent, unit.factor);
  if (!Number.isFinite(value)) return refuse(`${text.trim()}, which is too large for a number`);
  if (dimension === 'count' && !Number.isInteger(value)) return refuse(`${text.trim()}, not a whole number`);
  return { ok: true, value };
}

/**
 * Text of an SI value with an engineering prefix, shortest digits that read back to the same bits; `digits`
 * significant ones where given. Ratios are printed as numbers; see `formatPercent` for shares.
 */
export function formatQuantity(value: number, dimension: Dimension, digits?: number): string {
  const { unit } = printed[dimension];
  if (!Number.isFinite(value)) return `${value}${unit === '' ? '' : ` ${unit}`}`;
  const shown = digits === undefined ? value : Number(value.toPrecision(digits));
  if (unit === '') return String(shown);
  if (dimension === 'temperature' || dimension === 'mass' || unit.startsWith('1/') || unit.startsWith('A/('))
    return `${shown} ${unit}`;
  const [mantissa, exponent] = decimal(shown);
  const place = shown === 0 ? 0 : exponent + mantissa.replace(/^-/, '').length - 1;
  const power = Math.max(-12, Math.min(12, 3 * Math.floor(place / 3)));
  const prefix = { [-6]: 'µ' }[power] ?? Object.keys(prefixes).find((p) => prefixes[p] === power) ?? '';
  return `${shifted(mantissa, exponent - power)} ${prefix}${unit}`;
}

/** A share as per cent, for example `12.5 %`. */
export function formatPercent(ratio: number, digits = 3): string {
  return `${Number((ratio * 100).toPrecision(digits))} %`;
}

/** Whether its values stand without a unit. */
export function isBare(dimension: Dimension): boolean {
  return printed[dimension].unit === '';
}

/** The name of a dimension in a sentence, `a resistance`. */
export function nameOf(dimension: Dimension): string {
  return printed[dimension].name;
}

/** How a quantity of this dimension is written, `0.694 mΩ or 0.694 mohm`. */
export function exampleOf(dimension: Dimension): string {
  return printed[dimension].example;
}

function called(signature: string): string {
  if (signature === '') return 'a plain number';
  const dimension = dimensionOf[signature];
  return dimension === undefined ? `in ${signature}` : printed[dimension].name;
}

function readUnit(text: string): UnitReading | null {
  const unit = text.replaceAll('\u03bc', 'µ').replaceAll('\u2126', 'Ω');
  const alone = Object.hasOwn(whole, unit) ? whole[unit] : undefined;
  if (alone !== undefined) return { signature: alone[0], exponent: alone[1], factor: alone[2] };
  // `A/(V s)`, `A/(V·s)` and `A/V/s` are the same.
  const parts = unit
    .replace(
      /\/\s*\(([^()]*)\)/,
      (_, inner: string) =>
        `/${inner
          .trim()
          .split(/\s*[·*]\s*|\s+/)
          .join('/')}`,
    )
    .split('/')
    .map((part) => part.trim());
  let exponent = 0;
  let factor = 1;
  const symbols: string[] = [];
  for (const [i, part] of parts.entries()) {
    if (i === 0 && part === '1' && parts.length > 1) {
      symbols.push('1');
      continue;
    }
    const base = readBase(part);
    if (base === null || (i > 0 && base.factor !== 1)) return null;
    exponent += i === 0 ? base.exponent : -base.exponent;
    factor *= base.factor;
    symbols.push(base.signature);
  }
  const signature =
    symbols.length > 1 ? [symbols[0], ...symbols.slice(1).sort()].join('/') : symbols.join('');
  return { signature, exponent, factor };
}

function readBase(text: string): UnitReading | null {
  const bare = Object.hasOwn(bases, text) ? bases[text] : undefined;
  if (bare !== undefined) return { signature: bare[0], exponent: bare[1], factor: bare[2] };
  const prefix = text.slice(0, 1);
  const rest = text.slice(1);
  if (!Object.hasOwn(prefixes, prefix) || !Object.hasOwn(bases, rest)) return null;
  const [symbol, exponent, factor] = bases[rest]!;
  return { signature: symbol, exponent: exponent + prefixes[prefix]!, factor };
}

/** sign · mantissa · factor · 10^exponent as the nearest double: the product is taken in whole numbers. */
function scaled(sign: string, mantissa: string, exponent: number, factor: number): number {
  const [whole = '', fraction = ''] = mantissa.split('.');
  const digits = BigInt(`${whole}${fraction}` || '0') * BigInt(factor);
  const value = Number(`${digits}e${exponent - fraction.length}`);
  return sign === '-' && value !== 0 ? -value : value;
}

/** The shortest digits of a double as a whole number and a power of ten. */
function decimal(value: number): [digits: string, exponent: number] {
  const [mantissa = '0', exponent = '0'] = value.toExponential().split('e');
  const [whole = '', fraction = ''] = mantissa.split('.');
  return [`${whole}${fraction}`, Number(exponent) - fraction.length];
}

/** Whole-number text times 10^exponent, written out. */
function shifted(digits: string, exponent: number): string {
  const sign = digits.startsWith('-') ? '-' : '';
  const bare = digits.replace(/^-/, '');
  if (exponent > 21 || exponent < -30) return `${digits}e${exponent}`;
  if (exponent >= 0) return `${sign}${bare}${'0'.repeat(bare === '0' ? 0 : exponent)}`;
  const padded = bare.padStart(1 - exponent, '0');
  const fraction = padded.slice(exponent).replace(/0+$/, '');
  return `${sign}${padded.slice(0, exponent)}${fraction === '' ? '' : `.${fraction}`}`;
}
