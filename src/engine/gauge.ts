/** Reads every channel of the catalogue from states and voltages, in the catalogue's order. */

import type { Int } from '../base/int.ts';
import { catalogue } from '../channels/catalogue.ts';
import type { Channel } from '../channels/channel.ts';
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
  /** Bars that are shown: all but the sleds' contacts. */
  private readonly barIndex: Int32Array;
  private readonly shownCount: Int;
  /** Where the powers and capacitor currents of the trays and the powers of the sleds begin among the values. */
  readonly trayPowersAt: Int;
  readonly trayCurrentsAt: Int;
  readonly sledPowersAt: Int;

  constructor(network: Network) {
    this.network = network;
    this.barIndex = Int32Array.from(shownBars(network), ({ k }) => k);
    this.shownCount = this.barIndex.length;
    this.channels = channelsOf(network);
    this.values = new Float64Array(this.channels.length);
    const first = (kind: Channel['kind']): Int => this.channels.findIndex((channel) => channel.kind === kind);
    this.trayPowersAt = first('tray-power');
    this.trayCurrentsAt = first('tray-current');
    this.sledPowersAt = first('sled-power');
  }

  /** Place of a channel in the catalogue. */
  indexOf(id: string): number {
    const k = this.channels.findIndex((channel) => channel.id === id);
    if (k < 0) throw new RangeError(`no channel ${id} in a catalogue of ${this.channels.length}`);
    return k;
  }

  /** Reads all channels; `smoothed_W`: the load as the smoothing has it. */
  read(x: Float64Array, v: Float64Array, smoothed_W: number): void {
    const { values: out, trayPowersAt, shownCount, barIndex, network } = this;
    const { bars, stages, shelfCount, batteryCount, intakes, trays, banks, packs, sleds, nodeCount } =
      network;
    const { offset: oBar } = bars;
    const { offset: oStage, node: stageNode, trim_V } = stages;
    const { offset: oIntake } = intakes;
    const { end: pulsation } = intakes.ripple;
    const { lineVoltage_V } = intakes.columns;
    const { count: n, offset: oTray, node: trayNode } = trays;
    const { offset: oBank } = banks;
    const { offset: oPack } = packs;
    const { offset: oSled, node: sledNode } = sleds;
    let o: Int = 0;
    for (let k = 0; k < nodeCount; k++) out[o++] = v[k]!;
    for (let k = 0; k < shownCount; k++) out[o++] = x[oBar + barIndex[k]!]!;
    let shelves = 0;
    for (let k = 0; k < shelfCount; k++) {
      const i = x[oStage + k]!;
      out[o++] = i;
      shelves += i * v[stageNode[k]!]!;
    }
    for (let k = 0; k < shelfCount; k++) out[o++] = x[oIntake + k]!;
    for (let k = 0; k < shelfCount; k++) out[o++] = trim_V[k]!;
    let ac = 0;
    let line = 0;
    for (let k = 0; k < shelfCount; k++) {
      const p = x[oIntake + 2 * shelfCount + k]!;
      const pAc = p * pulsation[k]! + intakes.acLoss_W(k, p);
      out[o++] = pAc;
      ac += pAc;
      line += pAc / lineVoltage_V[k]!;
    }
    let given = 0;
    for (let k = 0; k < n; k++) {
      const p = trays.delivered_W(k, x[oTray + k]!, v[trayNode[k]!]!);
      out[o++] = p;
      given += p;
    }
    for (let k = 0; k < n; k++) out[o++] = trays.charge_ratio(k, x[oTray + n + k]!);
    for (let k = 0; k < n; k++) out[o++] = x[oTray + n + k]!;
    for (let k = 0; k < n; k++)
      out[o++] = trays.capacitorCurrent_A(k, out[trayPowersAt + k]!, x[oTray + n + k]!);
    for (let k = 0; k < banks.count; k++) out[o++] = x[oBank + k]!;
    let batteries = 0;
    for (let k = shelfCount; k < shelfCount + batteryCount; k++) {
      const i = x[oStage + k]!;
      out[o++] = i;
      batteries += i * v[stageNode[k]!]!;
    }
    for (let k = 0; k < batteryCount; k++) out[o++] = x[oPack + k]!;
    let load = 0;
    for (let k = 0; k < sleds.count; k++) {
      const vk = v[sledNode[k]!]!;
      const P = sleds.drawn_A(k, x[oSled + k]!, vk) * vk;
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
    out[o] = smoothed_W;
  }
}
