/** A value in the unit that a limit or metric names, for people: four significant digits unless asked, ratios in per cent. */
import { type Dimension, formatPercent, formatQuantity } from '../../base/quantity.ts';

const dimensions: Readonly<Record<string, Dimension>> = {
  V: 'voltage',
  A: 'current',
  W: 'power',
  'W/s': 'power_rate',
  J: 'energy',
  s: 'time',
  Hz: 'frequency',
  VA: 'apparent_power',
  degC: 'temperature',
  K: 'temperature_rise',
  count: 'count',
  '': 'ratio',
};

const usual = 4;

/** Units of times that people do not count in seconds, longest first. */
const longTimes = [
  { name: 'years', length_s: 365.25 * 24 * 3600 },
  { name: 'h', length_s: 3600 },
] as const;

export function numberText(value: number, unit: string, significant = usual): string {
  if (!Number.isFinite(value)) return 'no number';
  if (unit === 'ratio') return formatPercent(value, significant);
  const long = unit === 's' ? longTimes.find(({ length_s }) => Math.abs(value) >= length_s) : undefined;
  if (long !== undefined) return `${Number((value / long.length_s).toPrecision(significant))} ${long.name}`;
  const dimension = dimensions[unit];
  if (dimension === undefined) return `${Number(value.toPrecision(significant))} ${unit}`;
  return formatQuantity(value, dimension, significant);
}
