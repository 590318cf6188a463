/** The channels that a device answers for: its own current, power and charge, and the bus at its place. */
import type { Channel, ChannelKind } from '../channels/channel.ts';
import type { Scenario } from '../scenario/scenario.ts';

const answered: readonly ChannelKind[] = [
  'shelf-current',
  'shelf-ac-power',
  'tray-power',
  'tray-charge',
  'bank-current',
  'battery-current',
  'battery-charge',
  'sled-power',
];

export function channelsOfDevice(
  device: string,
  channels: readonly Channel[],
  { sections }: Pick<Scenario, 'sections'>,
): Channel[] {
  const place = sections.find(({ order }) => order.includes(device));
  const node = place === undefined ? device : `${place.id}.${device}`;
  return channels.filter(
    ({ kind, owner }) =>
      (kind === 'node-voltage' && owner === node) || (answered.includes(kind) && owner === device),
  );
}
