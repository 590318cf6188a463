/**
 * Supplies: the source impedance between a feeder's open-circuit voltage and its shelves, of feeders that give way.
 *
 * | parameter | unit | | |
 * |---|---|---|---|
 * | E open-circuit voltage, V_n nominal, line to line | V | R, X impedance | Ω |
 * | n cabinets that take the same | – | tan φ of each shelf's fundamental, by its load | – |
 *
 * Equations, of RMS values in balance (`line-under-load.ts`):
 *   P = n Σ (p + a' + b' p + c' p²)      Q = n Σ tan φ (…)      over the shelves of the feeder
 *   V: upper root of V⁴ + (2 (R P + X Q) − E²) V² + |Z|² (P² + Q²) = 0
 * No states of its own: the power into each bulk is one (intake.ts), and V follows from them. V gives the intakes the most
 * that they take, P_line min(1, V/V_n), and the voltage that their line current goes by.
 * Not modelled: what moves faster than RMS values do (how rectifiers and the line's inductance or its filters swing
 * together), imbalance, harmonics of the voltage. The loss in R lies before the cabinet, outside its books.
 */
import type { Int } from '../../base/int.ts';
import { Device } from '../device.ts';
import type { Intakes } from '../intake/intake.ts';
import type { LoadCurve } from '../intake/load-curve.ts';
import { middleOfRoots, upperRoot } from './line-under-load.ts';
import type { SupplyColumns } from './supply-columns.ts';

export class Supplies extends Device {
  readonly kind = 'supply';
  readonly states: readonly string[] = [];
  readonly words: readonly string[] = [];
  readonly columns: SupplyColumns;
  readonly intakes: Intakes;
  /** Supply of each intake; −1 where its feeder is stiff. */
  readonly feeds: Int32Array;
  /** tan φ of each intake against its load. */
  readonly tangent: LoadCurve;
  /** E as it is now, after sags and swells [V]. */
  readonly open_V: Float64Array;
  /** V of the states last looked at [V]; 1 where the power is more than the supply carries. */
  readonly line_V: Float64Array;
  readonly beyond: Uint8Array;
  /** P and Q of the states last looked at [W, var]. */
  readonly active_W: Float64Array;
  readonly reactive_W: Float64Array;

  constructor(
    columns: SupplyColumns,
    feeds: Int32Array,
    tangent: LoadCurve,
    intakes: Intakes,
    offset: number,
  ) {
    super(columns.names, offset);
    const n = this.count;
    this.columns = columns;
    this.intakes = intakes;
    this.feeds = feeds;
    this.tangent = tangent;
    this.open_V = columns.nominal_V.slice();
    this.line_V = columns.nominal_V.slice();
    this.beyond = new Uint8Array(n);
    this.active_W = new Float64Array(n);
    this.reactive_W = new Float64Array(n);
  }

  /** Finds P, Q and V at states x, without giving V to anyone. */
  look(x: Float64Array): void {
    const { count, columns, open_V, line_V, beyond, active_W, reactive_W } = this;
    const { resistance_ohm, reactance_ohm, impedance_ohm } = columns;
    this.sum(x);
    for (let f = 0; f < count; f++) {
      const P = active_W[f]!;
      const Q = reactive_W[f]!;
      const h = middleOfRoots(open_V[f]!, resistance_ohm[f]!, reactance_ohm[f]!, P, Q);
      const ZS = impedance_ohm[f]! * Math.sqrt(P * P + Q * Q);
      line_V[f] = upperRoot(h, ZS);
      beyond[f] = h < ZS ? 1 : 0;
    }
  }

  private sum(x: Float64Array): void {
    const { count, columns, intakes, feeds, tangent, active_W, reactive_W } = this;
    const { cabinets } = columns;
    const { offset, count: shelves } = intakes;
    for (let f = 0; f < count; f++) {
      active_W[f] = 0;
      reactive_W[f] = 0;
    }
    for (let k = 0; k < shelves; k++) {
      const f = feeds[k]!;
      if (f < 0) continue;
      const p = x[offset + 2 * shelves + k]!;
      const own = p + intakes.acLoss_W(k, p);
      const taken = cabinets[f]! * own;
      active_W[f] = active_W[f]! + taken;
      reactive_W[f] = reactive_W[f]! + taken * tangent.at(k, intakes.load(k, own));
    }
  }

  /** Gives the intakes the voltages V, one for each supply [V]. */
  give(volts: Float64Array): void {
    const { intakes, feeds, columns } = this;
    const { nominal_V } = columns;
    const shelves: Int = intakes.count;
    for (let k = 0; k < shelves; k++) {
      const f = feeds[k]!;
      if (f >= 0) intakes.give(k, volts[f]! / nominal_V[f]!);
    }
  }

  override flow(_dx: Float64Array, _x: Float64Array, _v: Float64Array): void {}

  override guide(x: Float64Array, _v: Float64Array): void {
    if (this.count === 0) return;
    this.look(x);
    this.give(this.line_V);
  }

  override rest(x: Float64Array, v: Float64Array): void {
    this.guide(x, v);
  }
}
