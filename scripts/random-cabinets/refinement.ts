/**
 * Do the figures of random cabinets with shorts converge when the step is refined? Each runs at its own step, at half
 * and at a quarter. A figure converges where its second difference is the smaller one, or below the bound: the bus
 * extremes to `bound` of the nominal voltage, the rest to `bound` of themselves. What the bound leaves room for is
 * sampled: a sled's cut-off that comes one supervision sample later, and the step that ends a collapsed run beyond
 * its threshold.
 */
import { type CabinetOutcome, type Figures, outcomeOf } from './outcome.ts';
import { randomScenario } from './scenario.ts';
import { faultWords } from './series.ts';

export const bound = 1e-3;

export interface Refined {
  readonly number: number;
  readonly outcomes: readonly [CabinetOutcome, CabinetOutcome, CabinetOutcome];
  readonly converges: boolean;
  /** The largest second difference of any figure, over its scale. */
  readonly worst_ratio: number;
  readonly faults: string;
}

export function refined(seed: number, number: number): Refined {
  const drawn = randomScenario(seed, number, true);
  const { scenario } = drawn.read;
  const outcomes = [outcomeOf(scenario), outcomeOf(scenario, 2), outcomeOf(scenario, 4)] as const;
  const [whole, half, quarter] = outcomes.map(({ figures }) => figures) as [Figures, Figures, Figures];
  let converges = outcomes.every(({ ending }) => ending === outcomes[0].ending && ending !== 'crash');
  let worst_ratio = 0;
  for (const key of ['lowest_V', 'highest_V', 'shelfPeak_A', 'throughput_J'] as const) {
    const scale = key.endsWith('_V') ? scenario.nominal_V : Math.abs(quarter[key]);
    const first = Math.abs(whole[key] - half[key]);
    const second = Math.abs(half[key] - quarter[key]);
    // Written so that a figure which is not a number does not converge.
    if (!(second < first || second <= bound * scale)) converges = false;
    worst_ratio = Math.max(worst_ratio, second / scale);
  }
  return { number, outcomes, converges, worst_ratio, faults: faultWords(drawn) };
}
