/** A cabinet whose controllers do not say where they rest: it is run until they do, at a load that is held. */
import { advance } from '../advance.ts';
import type { Cabinet } from '../cabinet.ts';
import { firmwareAgenda } from '../firmware-agenda.ts';

/** How a load is approached that a controller can only come to in time: from half of it, in a straight line [s]. */
export const approach_s = 10;

/** Its controllers have said where they rest, or are the built-in ones. */
export function restsByItself({ controls }: Cabinet): boolean {
  return (controls.share.law?.hasRest ?? true) && controls.smoothing.law === null;
}

const restEvery_s = 1;
export const restWithin_s = 120;

/** Commands that move less than this in a second stand still. */
export interface Still {
  readonly trim_V: number;
  readonly command_W: number;
}

/**
 * Runs under a load that does not move until its commands stand still, from `still_s` on at the soonest. `moves`: they had not
 * after 120 s; `leaves`: the cabinet left its bounds on the way.
 */
export function runToRest(cabinet: Cabinet, still_s: number, still: Still): 'rests' | 'moves' | 'leaves' {
  const { network, controls, log } = cabinet;
  const { stages, trays, shelfCount, scenario } = network;
  const ticks = Math.round(restEvery_s / scenario.tick_s);
  const agenda = firmwareAgenda(cabinet, 0);
  for (let k = 0; k < restWithin_s / restEvery_s; k++) {
    const trims = stages.trim_V.slice(0, shelfCount);
    const commands = trays.command_W.slice();
    if (advance(cabinet, agenda, k * ticks, (k + 1) * ticks, null).ending !== 'reached') return 'leaves';
    const isStill =
      trims.every((u, j) => Math.abs(stages.trim_V[j]! - u) < still.trim_V) &&
      commands.every((p, j) => Math.abs(trays.command_W[j]! - p) < still.command_W);
    if (!isStill || (k + 1) * restEvery_s <= still_s) continue;
    for (const { signal } of controls.tasks) signal.settle();
    log.entries.length = 0;
    return 'rests';
  }
  return 'moves';
}
