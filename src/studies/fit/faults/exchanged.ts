/** Two columns that stand for each other's channel. */
import type { Hypothesis, Recording } from './fault.ts';

export function exchangedColumns({ columns, noise }: Recording): Hypothesis[] {
  return columns.flatMap((a, j) =>
    columns.slice(j + 1).map((b, more): Hypothesis => {
      const k = j + 1 + more;
      const other = (i: number): number => (i === j ? k : i === k ? j : i);
      const read = columns.map((one, i) => {
        const { time_s, values } = columns[other(i)]!;
        return { ...one, time_s, values };
      });
      return {
        fault: { kind: 'exchanged', path: a.channel, other: b.channel },
        without: { columns: read, noise: noise.map((_, i) => noise[other(i)]!) },
        moved_s: null,
      };
    }),
  );
}
