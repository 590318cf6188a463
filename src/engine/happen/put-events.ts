/** Puts the events of a cabinet's scenario on its agenda: each happens at its ticks and kicks the ladder. */
import type { Agenda } from '../agenda.ts';
import type { Cabinet } from '../cabinet.ts';
import { happen, schedule } from './happen.ts';

/** Who hears of it. */
export interface Heard {
  /** Energy leaves the cabinet's books with a part that is taken out or shorted [J]. */
  removed(owner: string, energy_J: number): void;
  /** An event has come, gone on or ended. */
  happened(tick: number): void;
}

const nobody: Heard = { removed: () => {}, happened: () => {} };

export function putEvents(cabinet: Cabinet, agenda: Agenda, heard: Heard = nobody): void {
  const { network, controls, stepper, ladder, log } = cabinet;
  const { events, tick_s } = network.scenario;
  const removed = heard.removed.bind(heard);
  for (const event of events) {
    schedule(event, tick_s, agenda, (along, tick) => {
      happen({ event, along, tick, network, controls, stepper, log, removed });
      // A ramp comes in small parts: only its end is a jump.
      if (event.over_s === null || along === 0) ladder.kick(Number.POSITIVE_INFINITY);
      heard.happened(tick);
    });
  }
}
