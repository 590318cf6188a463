/** Time that was run and is not judged. What a limit then cannot show is said by its finding. */
import type { Result } from '../../engine/result.ts';
import type { Demand } from '../../loads/demand.ts';
import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, seconds, writtenBy } from './entry.ts';

export function windowBasis(
  scenario: Stated,
  demand: Pick<Demand, 'period_ticks'>,
  { window, counters }: Pick<Result, 'window' | 'counters'>,
): BasisEntry[] {
  const entries: BasisEntry[] = [];
  if (window.from_s > 0) {
    entries.push(
      entry('shortened', `the first ${seconds(window.from_s)} are not judged`, {
        by: writtenBy(scenario, 'warm_up'),
        reason: 'warm-up',
      }),
    );
  }
  const rest_s = scenario.duration_s - window.to_s;
  if (rest_s > scenario.tick_s / 2) {
    entries.push(
      entry('shortened', `the last ${seconds(rest_s)} are not judged`, {
        reason: demand.period_ticks === null ? 'the run ended there' : 'only whole periods are',
      }),
    );
  }
  if (
    scenario.start === 'converged-cycle' &&
    demand.period_ticks !== null &&
    counters.cycles_to_converge === null
  ) {
    entries.push(
      entry('warned', 'no cycle of the cabinet under its load was found: the run does not start in one', {
        conditions: true,
      }),
    );
  }
  return entries;
}
