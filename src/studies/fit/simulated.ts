import { simulate } from '../../engine/simulate.ts';
import { makeDemand } from '../../loads/make-demand.ts';
import type { RecordedLoad } from '../../loads/recorded/recorded-load.ts';
import type { Curves } from '../../measured/curve/curve.ts';
import { CurveKeeper } from '../../measured/curve/curve-keeper.ts';
import type { Measurement } from '../../measured/measurement.ts';
import { assemble } from '../../network/network.ts';
import type { Scenario } from '../../scenario/scenario.ts';

const noLevels = new Float64Array(0);

/**
 * What a fit needs of a run: the curves of the measured channels. Nothing is judged and no mode is looked for, which
 * costs ten times the steps of a short bench. Of a recording to be read both ways it takes the smooth reading.
 */
export function simulatedFor(
  measurement: Measurement,
  scenario: Scenario,
  recorded: RecordedLoad | null,
): Curves {
  const { load } = scenario;
  const both = load.kind === 'recorded' && load.edges === 'both';
  const one: Scenario = both ? { ...scenario, load: { ...load, edges: 'smooth' } } : scenario;
  const keeper = new CurveKeeper(measurement.columns);
  const { window } = simulate(assemble(one), makeDemand(one, recorded ?? undefined), {
    levels_V: noLevels,
    waveforms: [keeper.order],
  });
  return keeper.curves(window);
}
