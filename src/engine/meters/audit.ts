/**
 * The energy audit: every joule in, to the load, lost or stored, device by device. Products of the means over
 * a step are exact for the trapezoid's linear elements, so the network closes to rounding; what stays open is
 * the error of the parts that are not linear. A closed audit does not prove accuracy.
 */
import { openingTime_s } from '../../devices/bar/bar.ts';
import type { Int } from '../../int.ts';
import type { Network } from '../../network/network.ts';
import type { Gauge } from '../gauge.ts';
import type { Audit, EnergyRow } from '../result.ts';

const unopened: Audit = {
  rows: [],
  input_J: 0,
  load_J: 0,
  loss_J: 0,
  stored_J: 0,
  residual_ratio: 0,
  residual_loss_ratio: 0,
};

export class AuditMeter {
  private readonly network: Network;
  private readonly tick_s: number;
  /** Sums per unit [J]. */
  readonly bar: Float64Array;
  /** Square of the drop over the resistance, not yet divided by it [V² s]. */
  readonly capacitor: Float64Array;
  readonly bank: Float64Array;
  readonly dcStage: Float64Array;
  readonly acStage: Float64Array;
  readonly input: Float64Array;
  readonly converter: Float64Array;
  readonly trayEsr: Float64Array;
  readonly leakage: Float64Array;
  readonly pack: Float64Array;
  readonly load: Float64Array;
  /** Power out of each pack's charge, capacitor current of each tray, power of each sled's converter at the start of the step. */
  readonly packPast: Float64Array;
  readonly trayPast: Float64Array;
  readonly sledPast: Float64Array;
  /** Energy that left the books with parts taken out or shorted, by owner [J]. */
  private readonly gone: Map<string, number> = new Map();
  private readonly stored0: Map<string, number> = new Map();
  private begun = false;

  constructor(network: Network, tick_s: number) {
    this.network = network;
    this.tick_s = tick_s;
    const column = (n: number): Float64Array => new Float64Array(n);
    this.bar = column(network.bars.count);
    this.capacitor = column(network.capacitors.count);
    this.bank = column(network.banks.count);
    this.dcStage = column(network.shelfCount);
    this.acStage = column(network.shelfCount);
    this.input = column(network.shelfCount);
    this.converter = column(network.trays.count);
    this.trayEsr = column(network.trays.count);
    this.leakage = column(network.trays.count);
    this.pack = column(network.batteryCount);
    this.load = column(network.sleds.count);
    this.packPast = column(network.batteryCount);
    this.trayPast = column(network.trays.count);
    this.sledPast = column(network.sleds.count);
  }

  /** A part of `owner` leaves with this much energy in it, or burns it in itself [J]. */
  remove(owner: string, energy_J: number): void {
    this.gone.set(owner, (this.gone.get(owner) ?? 0) + energy_J);
  }

  /** Begins the books; what left before does not count. */
  start(x: Float64Array, v: Float64Array): void {
    this.begun = true;
    this.gone.clear();
    this.resume(x, v);
    this.stored(x, (owner, energy) => this.stored0.set(owner, energy));
  }

  /** Something has jumped: what the next step starts from is read anew. */
  resume(x: Float64Array, v: Float64Array): void {
    const { trays, sleds, packs } = this.network;
    for (let k = 0; k < trays.count; k++) {
      const u = x[trays.offset + trays.count + k]!;
      const p = trays.delivered_W(k, x[trays.offset + k]!, v[trays.node[k]!]!);
      this.trayPast[k] = trays.capacitorCurrent_A(k, p, u);
    }
    for (let k = 0; k < packs.count; k++) this.packPast[k] = packs.given_W(k, x, v);
    for (let k = 0; k < sleds.count; k++) this.sledPast[k] = this.converter_W(k, x, v);
  }

  /** Power of sled k but for what a short takes [W]. */
  private converter_W(k: Int, x: Float64Array, v: Float64Array): number {
    const { sleds } = this.network;
    const { node, offset, short_S } = sleds;
    const vk = v[node[k]!]!;
    return sleds.drawn_A(k, x[offset + k]!, vk) * vk - short_S[k]! * vk * vk;
  }

  /** Takes a step of `ticks`; the gauge has read its end. */
  take(
    ticks: number,
    x0: Float64Array,
    v0: Float64Array,
    x1: Float64Array,
    v1: Float64Array,
    gauge: Gauge,
  ): void {
    const h = ticks * this.tick_s;
    this.network_J(h, x0, v0, x1, v1);
    this.shelves_J(h, x0, v0, x1, v1);
    this.trays_J(h, x0, v0, x1, gauge);
    this.packs_J(h, x0, v0, x1, v1);
    this.sleds_J(h, v0, v1, gauge);
  }

  /** Bars, capacitors and banks. */
  private network_J(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, v1: Float64Array): void {
    const { bars, capacitors, banks } = this.network;
    const { bar, capacitor, bank } = this;
    const { offset: oBar, from, to, open, resistance_ohm, inductance_H } = bars;
    for (let k = 0; k < bars.count; k++) {
      const i = (x0[oBar + k]! + x1[oBar + k]!) / 2;
      if (open[k] === 1) {
        const a = from[k]!;
        const b = to[k]!;
        const across = (v0[a]! + v1[a]! - v0[b]! - v1[b]!) / 2;
        bar[k]! += h * i * (across + (inductance_H[k]! * i) / openingTime_s);
      } else bar[k]! += h * resistance_ohm[k]! * i * i;
    }
    const { offset: oCapacitor, node } = capacitors;
    for (let k = 0; k < capacitors.count; k++) {
      const n = node[k]!;
      const o = oCapacitor + k;
      const drop = (v0[n]! + v1[n]! - x0[o]! - x1[o]!) / 2;
      capacitor[k]! += h * drop * drop;
    }
    const { offset: oBank, resistance_ohm: esr_ohm } = banks;
    for (let k = 0; k < banks.count; k++) {
      const i = (x0[oBank + k]! + x1[oBank + k]!) / 2;
      bank[k]! += h * esr_ohm[k]! * i * i;
    }
  }

  private shelves_J(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, v1: Float64Array): void {
    const { stages, shelfCount, intakes } = this.network;
    const { dcStage, acStage, input } = this;
    const { node, offset: oStage } = stages;
    const { dc0_W, dc1_W } = intakes;
    const { start, end } = intakes.ripple;
    const oPower = intakes.offset + 2 * shelfCount;
    for (let k = 0; k < shelfCount; k++) {
      const n = node[k]!;
      const i = (x0[oStage + k]! + x1[oStage + k]!) / 2;
      const out = (i * (v0[n]! + v1[n]!)) / 2;
      dcStage[k]! += h * ((dc0_W[k]! + dc1_W[k]!) / 2 - out);
      const p0 = x0[oPower + k]!;
      const p1 = x1[oPower + k]!;
      const lost = (intakes.acLoss_W(k, p0) + intakes.acLoss_W(k, p1)) / 2;
      acStage[k]! += h * lost;
      input[k]! += h * ((p0 * start[k]! + p1 * end[k]!) / 2 + lost);
    }
  }

  private trays_J(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, gauge: Gauge): void {
    const { trays } = this.network;
    const { converter, trayEsr, leakage, trayPast } = this;
    const { values, trayPowersAt, trayCurrentsAt } = gauge;
    const { count: n, offset: o, node } = trays;
    const { esr_ohm, leakage_A } = trays.columns;
    for (let k = 0; k < n; k++) {
      const p0 = trays.delivered_W(k, x0[o + k]!, v0[node[k]!]!);
      const p1 = values[trayPowersAt + k]!;
      const u0 = x0[o + n + k]!;
      const u1 = x1[o + n + k]!;
      const i0 = trayPast[k]!;
      const i1 = values[trayCurrentsAt + k]!;
      trayPast[k] = i1;
      const R = esr_ohm[k]!;
      const terminal = (u0 * i0 + u1 * i1 - R * (i0 * i0 + i1 * i1)) / 2;
      converter[k]! += h * (terminal - (p0 + p1) / 2);
      trayEsr[k]! += (h * R * (i0 * i0 + i1 * i1)) / 2;
      leakage[k]! += (h * leakage_A[k]! * (u0 + u1)) / 2;
    }
  }

  /** What the charge gives up, less what reaches the bus; `reading` takes off what polarisation still holds. */
  private packs_J(h: number, x0: Float64Array, v0: Float64Array, x1: Float64Array, v1: Float64Array): void {
    const { packs, stages } = this.network;
    const { pack, packPast } = this;
    const { node, offset: oStage } = stages;
    for (let k = 0; k < packs.count; k++) {
      const s = packs.firstStage + k;
      const n = node[s]!;
      const p = ((x0[oStage + s]! + x1[oStage + s]!) / 2) * ((v0[n]! + v1[n]!) / 2);
      const given0 = packPast[k]!;
      const given1 = packs.given_W(k, x1, v1);
      packPast[k] = given1;
      pack[k]! += h * ((given0 + given1) / 2 - p);
    }
  }

  private sleds_J(h: number, v0: Float64Array, v1: Float64Array, gauge: Gauge): void {
    const { sleds } = this.network;
    const { load, sledPast } = this;
    const { values, sledPowersAt } = gauge;
    const { node, short_S } = sleds;
    for (let k = 0; k < sleds.count; k++) {
      const n = node[k]!;
      const P0 = sledPast[k]!;
      const P1 = values[sledPowersAt + k]! - short_S[k]! * v1[n]! * v1[n]!;
      sledPast[k] = P1;
      // A short is a resistance: its own law holds between the means, however fast it empties the capacitors.
      const mean_V = (v0[n]! + v1[n]!) / 2;
      load[k]! += (h * (P0 + P1)) / 2 + h * short_S[k]! * mean_V * mean_V;
    }
  }

  private stored(x: Float64Array, put: (owner: string, energy: number) => void): void {
    const { bars, capacitors, banks, intakes, trays, packs } = this.network;
    for (let k = 0; k < bars.count; k++) {
      const i = x[bars.offset + k]!;
      put(`bar ${bars.names[k]}`, (bars.inductance_H[k]! * i * i) / 2);
    }
    for (let k = 0; k < capacitors.count; k++) {
      const u = x[capacitors.offset + k]!;
      put(`capacitor ${capacitors.names[k]}`, (capacitors.capacitance_F[k]! * u * u) / 2);
    }
    for (let k = 0; k < banks.count; k++) {
      const i = x[banks.offset + k]!;
      const u = x[banks.offset + banks.count + k]!;
      put(`bank ${banks.names[k]}`, (banks.capacitance_F[k]! * u * u + banks.inductance_H[k]! * i * i) / 2);
    }
    for (let k = 0; k < intakes.count; k++) {
      const u = x[intakes.offset + k]!;
      put(`bulk ${intakes.names[k]}`, (intakes.columns.bulk_F[k]! * u * u) / 2);
    }
    for (let k = 0; k < trays.count; k++) {
      put(`tray ${trays.names[k]}`, trays.energy_J(k, x[trays.offset + trays.count + k]!));
    }
    for (let k = 0; k < packs.count; k++) {
      put(`battery ${packs.names[k]}`, packs.energy_J(k, x[packs.offset + k]!));
      put(`polarisation ${packs.names[k]}`, packs.polarised_J(k, x[packs.offset + packs.count + k]!));
    }
  }

  /** The books at the states x; empty, and closed, where the run ended before they were begun. */
  reading(x: Float64Array): Audit {
    if (!this.begun) return unopened;
    const { bars, capacitors, banks, intakes, trays, packs, sleds } = this.network;
    const rows: EnergyRow[] = [];
    const add = (
      kind: EnergyRow['kind'],
      cause: string,
      names: readonly string[],
      column: Float64Array,
    ): void => {
      names.forEach((owner, k) => {
        if (k < column.length) rows.push({ owner, cause, kind, energy_J: column[k]! });
      });
    };
    add('input', 'AC', intakes.names, this.input);
    add('load', 'sled', sleds.names, this.load);
    add('loss', 'AC stage', intakes.names, this.acStage);
    add('loss', 'DC stage', intakes.names, this.dcStage);
    add('loss', 'converter', trays.names, this.converter);
    add('loss', 'capacitor resistance', trays.names, this.trayEsr);
    add('loss', 'leakage', trays.names, this.leakage);
    const packLoss = this.pack.map((sum, k) => {
      const held = packs.polarised_J(k, x[packs.offset + packs.count + k]!);
      return sum - (held - this.stored0.get(`polarisation ${packs.names[k]}`)!);
    });
    add('loss', 'pack and converter', packs.names, packLoss);
    add('loss', 'bar', bars.names, this.bar);
    add('loss', 'resistance', banks.names, this.bank);
    const burnt = this.capacitor.map((square, k) => square / capacitors.esr_ohm[k]!);
    add('loss', 'resistance', capacitors.names, burnt);
    for (const [owner, energy_J] of this.gone)
      rows.push({ owner, cause: 'taken out', kind: 'loss', energy_J });
    this.stored(x, (owner, energy) => {
      rows.push({ owner, cause: 'change', kind: 'stored', energy_J: energy - this.stored0.get(owner)! });
    });
    const sum = (kind: EnergyRow['kind']): number =>
      rows.reduce((total, row) => (row.kind === kind ? total + row.energy_J : total), 0);
    const input = sum('input');
    const load = sum('load');
    const loss = sum('loss');
    const stored = sum('stored');
    const residual = input - load - loss - stored;
    // A short burns what was stored: then the losses are what went through.
    const throughput = Math.max(Math.abs(input), Math.abs(load), Math.abs(loss), Number.MIN_VALUE);
    return {
      rows,
      input_J: input,
      load_J: load,
      loss_J: loss,
      stored_J: stored,
      residual_ratio: residual / throughput,
      residual_loss_ratio: residual / Math.max(Math.abs(loss), Number.MIN_VALUE),
    };
  }
}
