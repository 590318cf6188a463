import { counted } from '../../base/counted.ts';
import type { MeasuredUnit } from '../measured-unit.ts';
import type { MeasuredColumn } from '../measurement.ts';
import { readSensor, type SensorFault } from './read-sensor.ts';
import type { Sensor } from './sensor.ts';

/** The sensor declared for a column, by its name or its channel's; null where none is. */
export function sensorOf(
  { column, channel }: MeasuredColumn,
  unit: MeasuredUnit,
  declared: ReadonlyMap<string, string>,
  refuse: (fault: SensorFault) => never,
): Sensor | null {
  const words = declared.get(column) ?? declared.get(channel);
  if (words === undefined) return null;
  const sensor = readSensor(words, unit);
  return 'found' in sensor ? refuse(sensor) : sensor;
}

/** Readings within the range, less the known factor of the instrument. */
export function asHappened(
  column: MeasuredColumn & { readonly sensor: Sensor },
  remarks: string[],
): MeasuredColumn {
  const { scale_ratio } = column.sensor;
  const inside = withinRange(column, remarks);
  if (scale_ratio === 1) return inside;
  remarks.push(`Divided by its known scale, ${scale_ratio}: ${column.column}.`);
  return { ...inside, values: inside.values.map((value) => value / scale_ratio) };
}

/** Readings at the end of the range say only that there was as much or more: they are left out, and counted. */
function withinRange(
  column: MeasuredColumn & { readonly sensor: Sensor },
  remarks: string[],
): MeasuredColumn {
  const { range } = column.sensor;
  if (range === null) return column;
  const inside = column.values.map((value) => (Math.abs(value) < range * (1 - 1e-9) ? 1 : 0));
  const time_s = column.time_s.filter((_, i) => inside[i] === 1);
  const out = column.values.length - time_s.length;
  if (out === 0) return column;
  remarks.push(`Left out: ${counted(out, 'reading')} of ${column.column} at the end of its range.`);
  return {
    ...column,
    time_s,
    values: column.values.filter((_, i) => inside[i] === 1),
  };
}
