/** The catalogue of a cabinet's channels: kinds of channels in the order of `channelKinds`, then the sums. */
import { type Channel, channelKinds, type Shown, totals } from './channel.ts';

/** A channel for every owner of every quantity shown. */
export function catalogue(shown: readonly Shown[]): readonly Channel[] {
  return [
    ...channelKinds.flatMap((kind) =>
      shown
        .filter((one) => one.kind === kind)
        .flatMap(({ quantity, unit, owners }) =>
          owners.map((owner): Channel => ({ id: `${owner}.${quantity}_${unit}`, kind, owner, unit })),
        ),
    ),
    ...totals.map(
      (id): Channel => ({
        id: `total.${id}`,
        kind: 'total',
        owner: 'total',
        unit: id.endsWith('_A') ? 'A' : 'W',
      }),
    ),
  ];
}

/** Where the channels of a kind begin in a catalogue; its length where there are none. */
export function placeOf(channels: readonly Channel[], kind: Channel['kind']): number {
  const k = channels.findIndex((channel) => channel.kind === kind);
  return k < 0 ? channels.length : k;
}
