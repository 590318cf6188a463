/** What happens to battery shelves. Both change the next start; a shelf that carries already goes on. */
import { alters, switches } from './alters.ts';
import { columnsOf, type Handler } from './happening.ts';

export const batteryEvents = {
  'battery-fail': (happening) => {
    const { network, controls, log } = happening;
    for (const k of columnsOf(happening, network.packs.names)) {
      controls.handover.moves.failed[k] = 1;
      switches(happening, network.packs.names[k]!, true);
      log.note(network.packs.names[k]!, 'event', 'will not start when it is told to');
    }
  },
  'battery-late': (happening) => {
    const { event, network, controls, log } = happening;
    const late_s = event.amount!;
    for (const k of columnsOf(happening, network.packs.names)) {
      controls.handover.moves.late[k] = Math.round(late_s / network.scenario.tick_s);
      alters(happening, network.packs.names[k]!, late_s, 0);
      log.note(network.packs.names[k]!, 'event', `will start ${(late_s * 1e3).toFixed(1)} ms late`);
    }
  },
} satisfies Readonly<Record<string, Handler>>;
