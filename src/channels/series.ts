/** What of a run can be given out as a column: every channel, and sums of channels that no single one shows. */
import type { Channel, ChannelKind } from './channel.ts';

export interface ColumnSeries {
  /** A channel's id, or one of the same form: owner, quantity and SI unit, for example `F1.ac_power_W`. */
  readonly id: string;
  /** Channels whose sum it is. */
  readonly of: readonly string[];
  /** Given out where nobody chose: who carries the load, what the line sees, and the bus. */
  readonly usual: boolean;
}

const usualKinds: readonly ChannelKind[] = [
  'node-voltage',
  'shelf-current',
  'tray-power',
  'battery-current',
  'total',
];

/** A feeder, and the shelves that it feeds. */
export interface FeederShelves {
  readonly id: string;
  readonly shelves: readonly string[];
}

/** Every channel in the catalogue's order, then each feeder's AC power. */
export function seriesOf(
  channels: readonly Channel[],
  feeders: readonly FeederShelves[],
): readonly ColumnSeries[] {
  return [
    ...channels.map(({ id, kind }) => ({ id, of: [id], usual: usualKinds.includes(kind) })),
    ...feeders
      .filter(({ shelves }) => shelves.length > 0)
      .map(({ id, shelves }) => ({
        id: `${id}.ac_power_W`,
        of: shelves.map((shelf) => `${shelf}.ac_power_W`),
        usual: true,
      })),
  ];
}
