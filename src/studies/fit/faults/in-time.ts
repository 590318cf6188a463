/** Stamps that are at fault: time that is missing or there twice between them, a channel behind the others, another clock. */
import { type Beside, type Hypothesis, type Recording, withColumn } from './fault.ts';
import type { PartsApart } from './parts-apart.ts';

/** Clocks that are looked at: up to this fast and slow, at most so many either way. */
const [mostFast, mostClocks] = [0.02, 40] as const;

/** Moments tried about the one that was found, either way, a fraction of its step apart. */
const [mostMoments, fraction] = [4, 8] as const;

export function apartInTime(beside: Beside, apart: readonly PartsApart[]): Hypothesis[] {
  return apart.flatMap((one): Hypothesis[] => {
    const { first_s: moved_s, later_s } = one;
    if (one.kind === 'time lost') {
      return Array.from({ length: 2 * mostMoments + 1 }, (_, k) => {
        const from_s = one.from_s + ((k - mostMoments) / fraction) * one.moment_s;
        const columns = beside.columns.map((column, c) => ({
          ...column,
          time_s: column.time_s.map((t, i) => (beside.run_s[c]![i]! < from_s ? t : t + later_s)),
        }));
        return { fault: { kind: 'time lost', from_s, later_s }, without: { ...beside, columns }, moved_s };
      });
    }
    const { channel, time_s, values } = beside.columns[one.channel]!;
    const moved = { time_s: time_s.map((t) => t + later_s), values };
    return [
      {
        fault: { kind: 'delay', path: channel, later_s },
        without: withColumn(beside, one.channel, moved),
        moved_s,
      },
    ];
  });
}

/** Clocks half an interval apart at the end of the recording; its middle stays where it is. */
export function otherClocks(
  { columns, noise }: Recording,
  interval_s: number,
  later_s: number,
): Hypothesis[] {
  const length_s = Math.max(...columns.map(({ time_s }) => time_s.at(-1)!));
  const step = Math.max(interval_s / 2 / length_s, mostFast / mostClocks);
  const count = Math.floor(mostFast / step);
  return Array.from({ length: 2 * count + 1 }, (_, k) => (k - count) * step)
    .filter((fast_ratio) => fast_ratio !== 0)
    .map((fast_ratio) => ({
      fault: { kind: 'clock', fast_ratio },
      without: {
        columns: columns.map((column) => ({
          ...column,
          time_s: column.time_s.map((t) => t / (1 + fast_ratio)),
        })),
        noise,
      },
      moved_s: later_s + (length_s / 2) * (1 - 1 / (1 + fast_ratio)),
    }));
}
