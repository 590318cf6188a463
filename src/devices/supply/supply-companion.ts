import type { Int } from '../../base/int.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { IntakeCompanion } from '../intake/intake-companion.ts';
import type { Supplies } from './supply.ts';

/** V at the end is found to this [of nominal]. */
const tolerance_ratio = 1e-10;

/** Halving alone would take some thirty. */
const mostPasses = 60;

/**
 * V at the end of a step. An intake that the line holds back takes power by V, and V falls with the power: with T(V) the
 * line's voltage under what the intakes take at V, the end is where F(V) = V − T(V) = 0. T falls, so F rises and has one
 * zero, between any V and T(V): false position (Illinois form: Dowell and Jarratt, BIT 11, 1971). Where no intake is held
 * back T is the same at every V, and the second look finds it.
 */
export class SupplyCompanion extends Companion {
  private readonly supplies: Supplies;
  private readonly intakes: IntakeCompanion;
  /** V of this pass; the ends between which it lies, F at them, 0 where there is none yet [V]. */
  private readonly here_V: Float64Array;
  private readonly low_V: Float64Array;
  private readonly high_V: Float64Array;
  private readonly fLow_V: Float64Array;
  private readonly fHigh_V: Float64Array;
  /** Which end came last: −1 low, 1 high, 0 none. */
  private readonly side: Int32Array;

  constructor(supplies: Supplies, intakes: IntakeCompanion) {
    super();
    this.supplies = supplies;
    this.intakes = intakes;
    this.here_V = new Float64Array(supplies.count);
    this.low_V = new Float64Array(supplies.count);
    this.high_V = new Float64Array(supplies.count);
    this.fLow_V = new Float64Array(supplies.count);
    this.fHigh_V = new Float64Array(supplies.count);
    this.side = new Int32Array(supplies.count);
  }

  override prepare(_q: number): void {}

  /** Before the intakes begin: what the line gives them at the start. */
  override begin(ends: Ends, _p: number, _q: number): void {
    this.supplies.guide(ends.x0, ends.v0);
  }

  /** Before the intakes finish, which they then do with what the line gives at the end. */
  override finish(ends: Ends, p: number, q: number): void {
    const { supplies, intakes, here_V, fLow_V, fHigh_V, side } = this;
    const { count, line_V } = supplies;
    if (count === 0) return;
    for (let f = 0; f < count; f++) {
      here_V[f] = line_V[f]!;
      fLow_V[f] = 0;
      fHigh_V[f] = 0;
      side[f] = 0;
    }
    let found = false;
    for (let pass = 0; pass < mostPasses && !found; pass++) {
      supplies.give(here_V);
      intakes.finish(ends, p, q);
      supplies.look(ends.x1);
      found = this.isFound();
      if (!found) for (let f = 0; f < count; f++) this.move(f);
    }
  }

  /** Every V is the one that the intakes which go by it leave. */
  private isFound(): boolean {
    const { supplies, here_V } = this;
    const { count, line_V, columns } = supplies;
    const { nominal_V } = columns;
    for (let f = 0; f < count; f++) {
      if (Math.abs(here_V[f]! - line_V[f]!) > tolerance_ratio * nominal_V[f]!) return false;
    }
    return true;
  }

  /** The next V of supply f: first T(V), on the far side; then between both ends. An end that stays counts half. */
  private move(f: Int): void {
    const { supplies, here_V, low_V, high_V, fLow_V, fHigh_V, side } = this;
    const { line_V } = supplies;
    const here = here_V[f]!;
    const F = here - line_V[f]!;
    if (F < 0) {
      low_V[f] = here;
      fLow_V[f] = F;
      if (side[f] === -1) fHigh_V[f] = 0.5 * fHigh_V[f]!;
      side[f] = -1;
    } else {
      high_V[f] = here;
      fHigh_V[f] = F;
      if (side[f] === 1) fLow_V[f] = 0.5 * fLow_V[f]!;
      side[f] = 1;
    }
    const rise = fHigh_V[f]! - fLow_V[f]!;
    if (fLow_V[f] === 0 || fHigh_V[f] === 0 || rise === 0) here_V[f] = line_V[f]!;
    else here_V[f] = low_V[f]! - (fLow_V[f]! * (high_V[f]! - low_V[f]!)) / rise;
  }
}
