/** A number with its unit for people: four significant digits, prefixes where they help, ratios in percent. */

const prefixes: readonly (readonly [number, string])[] = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
];

/** Units that keep their plain form between 0.1 and 99 999: an engineer reads 49.31 V and 1240 A. */
const plainBelow: Readonly<Record<string, number>> = { V: 1e5, A: 1e5, s: 1e6, Hz: 1e4 };

export function numberText(value: number, unit: string): string {
  if (!Number.isFinite(value)) return 'no number';
  if (unit === 'ratio') return `${digits(100 * value)} %`;
  if (unit === 'count' || unit === '') return digits(value);
  const size = Math.abs(value);
  if (size === 0) return `0 ${unit}`;
  const plain = plainBelow[unit];
  if (plain !== undefined && size >= 0.1 && size < plain) return `${digits(value)} ${unit}`;
  const [factor, prefix] = prefixes.find(([least]) => size >= least * (1 - 1e-9)) ?? prefixes.at(-1)!;
  return `${digits(value / factor)} ${prefix}${unit}`;
}

function digits(value: number): string {
  const size = Math.abs(value);
  if (size >= 1000) return value.toFixed(0);
  return value === 0 ? '0' : String(Number(value.toPrecision(4)));
}
