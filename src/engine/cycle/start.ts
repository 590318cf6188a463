/** A cabinet at the start of its run. */
import type { Demand } from '../../loads/demand.ts';
import { assemble, type Network } from '../../network/network.ts';
import { type Cabinet, ready } from '../cabinet.ts';
import type { KernelChoice } from '../fast/kernel-form.ts';
import { type Convergence, converge, type Way } from './converge.ts';

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
  const first = ready(network, demand, refine, kernel);
  const period = demand.period_ticks;
  if (network.scenario.start !== 'converged-cycle' || period === null)
    return { cabinet: first, cycles: null };
  const anew = (): Cabinet => ready(assemble(network.scenario), demand, refine, kernel);
  const search = (cabinet: Cabinet, way: Way): Convergence & { readonly cabinet: Cabinet } => ({
    ...converge(cabinet, period, way),
    cabinet,
  });
  const ahead = search(first, 'ahead');
  // It may be lost for having gone too far ahead.
  const found = ahead.outcome === 'lost' ? search(anew(), 'mixing') : ahead;
  return inItsCycle(found, anew);
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
  cabinet.log.entries.length = 0;
  cabinet.log.tick = 0;
  cabinet.log.spans.restart();
  if (outcome === 'open') {
    cabinet.log.note('load', 'event', `cycle not converged after ${cycles} periods; the start drifts`);
  }
  cabinet.modeRetries = 0;
  cabinet.unsettled = 0;
  cabinet.steps = 0;
  return { cabinet, cycles: outcome === 'converged' ? cycles : null };
}
