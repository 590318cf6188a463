import type { Change } from '../../scenario/scenario.ts';
import type { Placed, Residuals } from './residuals.ts';
import type { RunAt } from './runs.ts';

/** Runs beside the measurement. What a run leaves is kept: searches come back to the same values. */
export interface Compared {
  readonly residuals: Residuals;
  readonly placedAt: (values: readonly number[], more?: readonly Change[]) => Promise<Placed>;
  readonly leftAt: (values: readonly number[], more?: readonly Change[]) => Promise<Float64Array>;
}

export function comparedBy(residuals: Residuals, runAt: RunAt): Compared {
  const known = new Map<string, Placed>();
  const placedAt: Compared['placedAt'] = async (values, more = []) => {
    const key = JSON.stringify([values, more]);
    const before = known.get(key);
    if (before !== undefined) return before;
    const placed = residuals.of(await runAt(values, more));
    known.set(key, placed);
    return placed;
  };
  return {
    residuals,
    placedAt,
    leftAt: async (values, more) => (await placedAt(values, more)).left,
  };
}
