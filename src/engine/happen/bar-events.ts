/** Bars that open and joints that age. */
import { alters } from './alters.ts';
import { type Handler, isFirst, reached } from './happening.ts';
import { levelNode } from './level-node.ts';

export const barEvents = {
  'bar-out': ({ event, network, stepper, log }) => {
    const { bars } = network;
    const k = bars.names.indexOf(event.unit);
    if (!bars.open[k]) log.begins('out', event.unit, 'opened');
    bars.setOpen(k, true);
    stepper.restamp();
    for (const node of [bars.from[k]!, bars.to[k]!]) levelNode(network, stepper, node);
    log.note(event.unit, 'event', `opens at ${bars.current_A(k, stepper.x0).toFixed(0)} A`);
  },
  'joint-aged': (happening) => {
    const { event, network, stepper, log } = happening;
    const { bars } = network;
    const k = bars.names.indexOf(event.unit);
    const was = network.barPieces[k]!.resistance_ohm;
    bars.setResistance(k, reached(happening, was));
    alters(happening, event.unit, bars.resistance_ohm[k]!, was);
    stepper.restamp();
    if (isFirst(happening)) {
      log.note(
        event.unit,
        'event',
        `its joints age: ${(was * 1e6).toFixed(0)} µΩ to ${(event.amount! * 1e6).toFixed(0)} µΩ`,
      );
    }
  },
} satisfies Readonly<Record<string, Handler>>;
