/** Units of power that a recording may be written in. */
import { meant, roundingOf } from '../../base/meant.ts';

const inWatt: Readonly<Record<string, number>> = {
  uW: 1e-6,
  µW: 1e-6,
  μW: 1e-6,
  mW: 1e-3,
  W: 1,
  kW: 1e3,
  MW: 1e6,
  w: 1,
  kw: 1e3,
  watt: 1,
  watts: 1,
  milliwatt: 1e-3,
  milliwatts: 1e-3,
  kilowatt: 1e3,
  kilowatts: 1e3,
};

/** Names to offer where a unit is asked for. */
export const powerUnits = 'µW, mW, W, kW, MW';

/** Watts of one unit; `unclear` where the letters can mean two (mw: milliwatt or megawatt); null where they mean none. */
export function wattsOf(unit: string): number | 'unclear' | null {
  const exact = inWatt[unit] ?? inWatt[unit.toLowerCase()];
  if (unit === 'mw' || unit === 'Mw') return 'unclear';
  return exact ?? null;
}

const ending = /(?:^|[\s_.:/([-])([µμ]W|[umkM]?W|[mMk]?w|(?:milli|kilo)?watts?)[)\]]?$/;

/** The unit that a column's name ends with, as written, and the name without it. */
export function powerUnitIn(name: string): { readonly unit: string; readonly rest: string } | null {
  const found = ending.exec(name) ?? ending.exec(name.toLowerCase());
  return found === null ? null : { unit: found[1]!, rest: name.slice(0, found.index) };
}

const currents: Readonly<Record<string, number>> = {
  uA: 1e-6,
  µA: 1e-6,
  μA: 1e-6,
  mA: 1e-3,
  A: 1,
  kA: 1e3,
  amp: 1,
  amps: 1,
  ampere: 1,
  amperes: 1,
};
const voltages: Readonly<Record<string, number>> = { mV: 1e-3, V: 1, kV: 1e3, volt: 1, volts: 1 };

export const currentUnits = 'µA, mA, A, kA';

/** Amperes of one unit, or null. */
export function amperesOf(unit: string): number | null {
  return currents[unit] ?? currents[unit.toLowerCase()] ?? null;
}

/** Volts of one unit, or null. */
export function voltsOf(unit: string): number | null {
  return voltages[unit] ?? voltages[unit.toLowerCase()] ?? null;
}

const currentEnding = /(?:^|[\s_.:/([-])([µμumk]?A|[Aa]mp(?:s|eres?)?)[)\]]?$/;
const voltageEnding = /(?:^|[\s_.:/([-])([mk]?V|[Vv]olts?)[)\]]?$/;

export function currentUnitIn(name: string): string | null {
  return currentEnding.exec(name)?.[1] ?? null;
}

export function voltageUnitIn(name: string): string | null {
  return voltageEnding.exec(name)?.[1] ?? null;
}

/** A value in a unit of `watts` as watts: 71585 mW is the double nearest 71.585 W, for which small units divide, and 2.019 kW 2019 W. */
export function inWatts(value: number, watts: number): number {
  if (watts < 1) return value / Math.round(1 / watts);
  return watts === 1 ? value : meant(value * watts, roundingOf(value * watts));
}
