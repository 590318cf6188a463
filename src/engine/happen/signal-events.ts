/** Signals that fail, sensors that lie, shelves that leave the share. */
import type { Handler } from './happening.ts';

const later: Handler = ({ event }) => {
  throw new Error(`${event.what} is not carried out yet`);
};

export const signalEvents = {
  'sensor-shift': later,
  'share-out': later,
  'signal-lost': later,
  'signal-frozen': later,
  'signal-late': later,
  'signal-jitter': later,
  'signal-scaled': later,
  'signal-stuck': later,
} satisfies Readonly<Record<string, Handler>>;
