/** What happens to battery shelves. */
import type { Handler } from './happening.ts';

const later: Handler = ({ event }) => {
  throw new Error(`${event.what} is not carried out yet`);
};

export const batteryEvents = {
  'battery-fail': later,
  'battery-late': later,
} satisfies Readonly<Record<string, Handler>>;
