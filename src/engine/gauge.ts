/** Reads every channel of the catalogue from states and voltages, in the catalogue's order. */
import { catalogue } from '../channels/catalogue.ts';
import type { Channel } from '../channels/channel.ts';
import type { Smoothing } from '../firmware/smoothing.ts';
import type { Network } from '../network/network.ts';

function shownBars({ barPieces }: Network) {
  return barPieces.map((piece, k) => ({ piece, k })).filter(({ piece }) => piece.role !== 'contact');
}

/** Every channel that a run of the network shows, in the catalogue's order. */
export function channelsOf(network: Network): readonly Channel[] {
  const { topology, intakes, trays, banks, stages, shelfCount, sleds } = network;
  return catalogue({
    nodes: topology.nodes,
    bars: shownBars(network).map(({ piece }) => piece.id),
    shelves: intakes.names,
    trays: trays.names,
    banks: banks.names,
    batteries: stages.names.slice(shelfCount),
    sleds: sleds.names,
  });
}

export class Gauge {
  readonly channels: readonly Channel[];
  /** Values last read. */
  readonly values: Float64Array;
  private readonly network: Network;
  private readonly smoothing: Smoothing;
  /** Bars that are shown: all but the sleds' contacts. */
  readonly barIndex: Int32Array;

  constructor(network: Network, smoothing: Smoothing) {
    this.network = network;
    this.smoothing = smoothing;
    this.barIndex = Int32Array.from(shownBars(network), ({ k }) => k);
    this.channels = channelsOf(network);
    this.values = new Float64Array(this.channels.length);
  }

  /** Place of a channel in the catalogue. */
  indexOf(id: string): number {
    const k = this.channels.findIndex((channel) => channel.id === id);
    if (k < 0) throw new RangeError(`no channel ${id} in a catalogue of ${this.channels.length}`);
    return k;
  }

  /** Reads all channels. */
  read(x: Float64Array, v: Float64Array): void {
    const { values: out, barIndex, network, smoothing } = this;
    const { bars, stages, shelfCount, batteryCount, intakes, trays, banks, packs, sleds } = network;
    let o = 0;
    for (let k = 0; k < v.length; k++) out[o++] = v[k]!;
    for (let k = 0; k < barIndex.length; k++) out[o++] = x[bars.offset + barIndex[k]!]!;
    let shelves = 0;
    for (let k = 0; k < shelfCount; k++) {
      const i = x[stages.offset + k]!;
      out[o++] = i;
      shelves += i * v[stages.node[k]!]!;
    }
    for (let k = 0; k < shelfCount; k++) out[o++] = x[intakes.offset + k]!;
    for (let k = 0; k < shelfCount; k++) out[o++] = stages.trim_V[k]!;
    let ac = 0;
    let line = 0;
    for (let k = 0; k < shelfCount; k++) {
      const p = x[intakes.offset + 2 * shelfCount + k]!;
      const pAc = p * intakes.ripple.end[k]! + intakes.acLoss_W(k, p);
      out[o++] = pAc;
      ac += pAc;
      line += pAc / intakes.columns.lineVoltage_V[k]!;
    }
    const n = trays.count;
    let given = 0;
    for (let k = 0; k < n; k++) {
      const p = trays.delivered_W(k, x[trays.offset + k]!, v[trays.node[k]!]!);
      out[o++] = p;
      given += p;
    }
    for (let k = 0; k < n; k++) out[o++] = trays.charge_ratio(k, x[trays.offset + n + k]!);
    for (let k = 0; k < n; k++) out[o++] = x[trays.offset + n + k]!;
    const powers = o - 3 * n;
    for (let k = 0; k < n; k++)
      out[o++] = trays.capacitorCurrent_A(k, out[powers + k]!, x[trays.offset + n + k]!);
    for (let k = 0; k < banks.count; k++) out[o++] = x[banks.offset + k]!;
    let batteries = 0;
    for (let k = shelfCount; k < shelfCount + batteryCount; k++) {
      const i = x[stages.offset + k]!;
      out[o++] = i;
      batteries += i * v[stages.node[k]!]!;
    }
    for (let k = 0; k < batteryCount; k++) out[o++] = x[packs.offset + k]!;
    let load = 0;
    for (let k = 0; k < sleds.count; k++) {
      const node = sleds.node[k]!;
      const P = sleds.drawn_A(k, x[sleds.offset + k]!, v[node]!) * v[node]!;
      out[o++] = P;
      load += P;
    }
    out[o++] = load;
    out[o++] = shelves;
    out[o++] = given;
    out[o++] = batteries;
    out[o++] = load - shelves - given - batteries;
    out[o++] = ac;
    out[o++] = line;
    out[o] = smoothing.smoothed_W;
  }
}
