/** Channels whose values move alike and share a scale: those of one kind; each total by itself, and each number of a controller. */
import type { Channel } from '../channels/channel.ts';

/** Places in the catalogue, kind after kind. */
export function byKind(channels: readonly Channel[]): readonly (readonly number[])[] {
  const places = new Map<string, number[]>();
  channels.forEach(({ kind, id }, c) => {
    const name = kind === 'total' || kind === 'own' ? id : kind;
    const known = places.get(name);
    if (known === undefined) places.set(name, [c]);
    else known.push(c);
  });
  return [...places.values()];
}
