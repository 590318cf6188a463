import type { Problem } from '../base/problem.ts';
import { type LoadContext, loadProblem } from './load-problem.ts';
import { wholeTicks } from './ticks.ts';

/**
 * Ticks of a time that the scenario declares for its load. Between two ticks, or below `least_ticks`, it is
 * added to `problems` with the nearest time that would do.
 */
export function declaredTicks(
  context: LoadContext,
  key: string,
  time_s: number,
  least_ticks: number,
  problems: Problem[],
): number {
  const { tick_s } = context;
  const ticks = wholeTicks(time_s, tick_s);
  if (ticks !== null && ticks >= least_ticks) return ticks;
  const nearest = Math.max(least_ticks, Math.round(time_s / tick_s));
  problems.push(
    loadProblem(context, key, {
      found: `${time_s} s`,
      expected: `a whole number of ticks of ${tick_s} s, at least ${least_ticks}`,
      mend: `write ${Number((nearest * tick_s).toPrecision(12))} s, the nearest that is`,
    }),
  );
  return nearest;
}
