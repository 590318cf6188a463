/** What happens to sleds. */
import type { Handler } from './happening.ts';

const later: Handler = ({ event }) => {
  throw new Error(`${event.what} is not carried out yet`);
};

export const sledEvents = {
  'sled-short': later,
  'sled-off': later,
  'sled-on': later,
  brake: later,
} satisfies Readonly<Record<string, Handler>>;
