/** A cabinet at the start of its run. */
import { BadInput } from '../../base/problem.ts';
import type { Demand } from '../../loads/demand.ts';
import { assemble, type Network } from '../../network/network.ts';
import { type Cabinet, ready } from '../cabinet.ts';
import type { KernelChoice } from '../fast/kernel-form.ts';
import { type Convergence, converge, type Way } from './converge.ts';
import { HeldDemand } from './held-demand.ts';
import { approach_s, restsByItself, restWithin_s, runToRest } from './run-to-rest.ts';

/**
 * Settled, or in the cycle of a periodic load. Where the way into the cycle leaves the bounds of a bus, stops something
 * or wakes a battery there is none, and the run begins settled, so that what happens shows in its own time. `cycles`:
 * periods that the search took; null where the cabinet is in no cycle.
 */
export function started(
  network: Network,
  demand: Demand,
  refine: number,
  kernel: KernelChoice | undefined,
): { readonly cabinet: Cabinet; readonly cycles: number | null } {
  const begin = network.scenario.controllers.length > 0 ? rested : ready;
  const first = begin(network, demand, refine, kernel);
  const period = demand.period_ticks;
  if (network.scenario.start !== 'converged-cycle' || period === null)
    return { cabinet: first, cycles: null };
  const anew = (): Cabinet => begin(assemble(network.scenario), demand, refine, kernel);
  const search = (cabinet: Cabinet, way: Way): Convergence & { readonly cabinet: Cabinet } => ({
    ...converge(cabinet, period, way),
    cabinet,
  });
  const ahead = search(first, 'ahead');
  // It may be lost for having gone too far ahead.
  const found = ahead.outcome === 'lost' ? search(anew(), 'mixing') : ahead;
  return inItsCycle(found, anew);
}

/**
 * A cabinet with controllers of the user's own, at rest under the load that its run begins with: where one does not say where it
 * rests, the cabinet is run there first, from half the load where it cannot begin at the whole. A law that never rests begins
 * where it has come to, and the log says so. Throws BadInput.
 */
function rested(network: Network, demand: Demand, refine: number, kernel: KernelChoice | undefined): Cabinet {
  const { scenario } = network;
  const standing = new HeldDemand(demand, 0);
  const coming = new HeldDemand(demand, Math.round(approach_s / scenario.tick_s));
  let held = standing;
  let cabinet: Cabinet;
  try {
    cabinet = ready(network, standing.asDemand(), refine, kernel);
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    held = coming;
    cabinet = ready(assemble(scenario), coming.asDemand(), refine, kernel);
    if (restsByItself(cabinet)) throw error;
  }
  if (restsByItself(cabinet)) {
    held.letGo();
    return cabinet;
  }
  const { trim_quantum_V } = scenario.firmware.share;
  const found = runToRest(cabinet, held === coming ? approach_s : 0, {
    // One step to and fro is as still as a quantum lets it be.
    trim_V: 1.5 * trim_quantum_V + 1e-6,
    command_W: still_ratio * scenario.rated_W,
  });
  if (found === 'leaves') return ready(assemble(scenario), demand, refine, kernel);
  held.letGo();
  begun(cabinet);
  const words =
    found === 'rests' ? 'were run to it first' : `were run for ${restWithin_s} s first, and still move`;
  cabinet.log.note('load', 'event', `controllers that do not say where they rest ${words}`);
  return cabinet;
}

/** A tray's command that moves less than this share of the cabinet's rating in a second stands still, beside a quantum. */
const still_ratio = 1e-4;

/** What came before the run is no part of it. */
function begun(cabinet: Cabinet): void {
  cabinet.log.entries.length = 0;
  cabinet.log.tick = 0;
  cabinet.log.spans.restart();
  cabinet.modeRetries = 0;
  cabinet.unsettled = 0;
  cabinet.steps = 0;
}

function inItsCycle(
  { cabinet, outcome, cycles }: Convergence & { readonly cabinet: Cabinet },
  anew: () => Cabinet,
): ReturnType<typeof started> {
  if (outcome === 'lost') {
    const again = anew();
    again.log.note(
      'load',
      'event',
      `has no cycle the cabinet can follow (lost in period ${cycles}); starts settled`,
    );
    return { cabinet: again, cycles: null };
  }
  begun(cabinet);
  if (outcome === 'open') {
    cabinet.log.note('load', 'event', `cycle not converged after ${cycles} periods; the start drifts`);
  }
  return { cabinet, cycles: outcome === 'converged' ? cycles : null };
}
