import { BadInput, type Problem } from '../../base/problem.ts';
import { declaredTicks } from '../declared-ticks.ts';
import { type LoadContext, loadProblem } from '../load-problem.ts';
import { TickRounder } from '../ticks.ts';

/** What a generator works with: ticks of declared times, a rounder for drawn ones, and all that is wrong. */
export class Plan {
  readonly context: LoadContext;
  readonly rounder: TickRounder;
  /** Ticks of the run. */
  readonly end: number;
  private readonly problems: Problem[] = [];

  constructor(context: LoadContext) {
    this.context = context;
    this.rounder = new TickRounder(context.tick_s);
    this.end = Math.round(context.duration_s / context.tick_s);
  }

  /** Whole ticks of the declared time `key`, at least `least`. */
  ticks(key: string, time_s: number, least = 1): number {
    return declaredTicks(this.context, key, time_s, least, this.problems);
  }

  /** Notes what is wrong unless `fits`. */
  want(fits: boolean, key: string, found: string, expected: string, mend: string): void {
    if (!fits) this.problems.push(loadProblem(this.context, key, { found, expected, mend }));
  }

  /** `low` must not lie above `high`. */
  order(low_W: number, high_W: number, lowKey = 'low', highKey = 'high'): void {
    this.want(
      low_W <= high_W,
      lowKey,
      `${low_W} W`,
      `at most ${highKey}, ${high_W} W`,
      `exchange ${lowKey} and ${highKey}`,
    );
  }

  /** Throws all that was noted. */
  settle(): void {
    if (this.problems.length > 0) throw new BadInput(this.problems);
  }
}
