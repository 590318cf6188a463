/** What happens to trays and banks. */
import type { Handler } from './happening.ts';

const later: Handler = ({ event }) => {
  throw new Error(`${event.what} is not carried out yet`);
};

export const storageEvents = {
  'tray-out': ({ event, network, controls, log }) => {
    log.note(event.unit, 'event', 'is taken out');
    controls.smoothing.drop(network.trays.names.indexOf(event.unit));
  },
  'tray-stuck': later,
  'charge-shift': later,
  'bank-out': later,
  'bank-short': later,
} satisfies Readonly<Record<string, Handler>>;
