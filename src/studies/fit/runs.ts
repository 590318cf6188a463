import type { Curves } from '../../measured/curve/curve.ts';
import type { Change } from '../../scenario/scenario.ts';

/** Runs by the values of what is adjusted, from 0 to 1 over their ranges, and by more changes. */
export type RunAt = (values: readonly number[], more?: readonly Change[]) => Promise<Curves>;

export interface Runs {
  readonly at: RunAt;
  readonly count: () => number;
}

/** The same run is often asked for twice in a row, to hear its noise or to say what it shows; curves are large, so few are kept. */
const mostKept = 2;

export function runsOf(
  run: (changes: readonly Change[]) => Promise<Curves>,
  changesAt: (values: readonly number[], more?: readonly Change[]) => Change[],
): Runs {
  const kept = new Map<string, Curves>();
  let count = 0;
  return {
    at: async (values, more) => {
      const changes = changesAt(values, more);
      const key = JSON.stringify(changes);
      const before = kept.get(key);
      if (before !== undefined) return before;
      const curves = await run(changes);
      count++;
      kept.set(key, curves);
      const [oldest] = kept.keys();
      if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
      return curves;
    },
    count: () => count,
  };
}
