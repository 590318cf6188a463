/** What happens to rectifier shelves. */
import type { Handler } from './happening.ts';

const later: Handler = ({ event }) => {
  throw new Error(`${event.what} is not carried out yet`);
};

export const shelfEvents = {
  'shelf-trip': ({ event, network, controls, log }) => {
    controls.walkIn.trip(network.intakes.names.indexOf(event.unit));
    log.note(event.unit, 'event', 'trips');
  },
  'shelf-join': later,
  'module-out': later,
  'set-point-shift': later,
  'reverse-feed': later,
  'coolant-loss': later,
} satisfies Readonly<Record<string, Handler>>;
