/** Reads every channel of the catalogue from states and voltages, in the catalogue's order. */
import type { Int } from '../base/int.ts';
import { catalogue, placeOf } from '../channels/catalogue.ts';
import type { Channel, Shown } from '../channels/channel.ts';
import { type AllReadouts, type Readouts, readoutsOf } from '../network/kinds.ts';
import type { Network } from '../network/network.ts';
import { Totals } from './totals.ts';

/** Every channel that a run of the network shows, in the catalogue's order. */
export function channelsOf(
  network: Network,
  { readouts }: Pick<AllReadouts, 'readouts'> = readoutsOf(network),
): readonly Channel[] {
  const nodes: Shown = {
    kind: 'node-voltage',
    quantity: 'voltage',
    unit: 'V',
    owners: network.topology.nodes,
  };
  return catalogue([nodes, ...readouts.flatMap(({ shows }) => shows)]);
}

export class Gauge {
  readonly channels: readonly Channel[];
  /** Values last read. */
  readonly values: Float64Array;
  readonly readouts: Readouts;
  /** By name, for those who read them too. */
  readonly shown: AllReadouts;
  private readonly totals: Totals;
  private readonly nodeCount: Int;

  constructor(network: Network) {
    this.nodeCount = network.nodeCount;
    this.shown = readoutsOf(network);
    this.readouts = this.shown.readouts;
    this.channels = channelsOf(network, this.shown);
    this.values = new Float64Array(this.channels.length);
    for (const { shows, at } of this.readouts) {
      shows.forEach(({ kind }, k) => {
        at[k] = placeOf(this.channels, kind);
      });
    }
    this.totals = new Totals(network, this.shown, placeOf(this.channels, 'total'));
  }

  /** Place of a channel in the catalogue. */
  indexOf(id: string): number {
    const k = this.channels.findIndex((channel) => channel.id === id);
    if (k < 0) throw new RangeError(`no channel ${id} in a catalogue of ${this.channels.length}`);
    return k;
  }

  /** Reads all channels; `smoothed_W`: the load as the smoothing has it. */
  read(x: Float64Array, v: Float64Array, smoothed_W: number): void {
    const { values, nodeCount, readouts, totals } = this;
    for (let k = 0; k < nodeCount; k++) values[k] = v[k]!;
    for (const readout of readouts) readout.read(values, x, v);
    totals.read(values, x, v, smoothed_W);
  }
}
