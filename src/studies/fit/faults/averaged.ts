/** Readings that are means over longer before their stamps than their instruments are said to take: a file made smaller. */
import { unitOfChannel } from '../../../measured/measured-unit.ts';
import { accuracyOf } from '../../../measured/sensor/accuracy.ts';
import { sensorKinds } from '../../../measured/sensor/sensor.ts';
import { medianInterval_s } from '../../../samples/series.ts';
import type { Hypothesis, Recording } from './fault.ts';

/** Over so many intervals: one where rows were joined to means, several where means run along. */
const overIntervals = [1, 2, 4, 8] as const;

export function averagedReadings({ columns, noise }: Recording): Hypothesis[] {
  const interval_s = Math.min(...columns.map(({ time_s }) => medianInterval_s(time_s)));
  const declared_s = Math.max(...columns.map(({ sensor }) => sensor?.averaging_s ?? 0));
  return overIntervals.flatMap((count): Hypothesis[] => {
    const averaging_s = Number((count * interval_s).toPrecision(3));
    if (averaging_s <= 1.5 * declared_s) return [];
    const read = columns.map((column) => ({
      ...column,
      sensor: {
        ...(column.sensor ?? sensorKinds.meter),
        ...accuracyOf(unitOfChannel(column.channel), column.sensor),
        averaging_s,
      },
    }));
    return [
      { fault: { kind: 'averaged', over_s: averaging_s }, without: { columns: read, noise }, moved_s: null },
    ];
  });
}
