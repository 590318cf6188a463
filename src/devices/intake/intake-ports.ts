/**
 * What firmware senses of the AC side of the shelves and commands it. `at`: the moment that is looked at, the present
 * one unless another is named.
 */
import type { Int } from '../../base/int.ts';
import type { Moment, Plant } from '../plant.ts';
import { wholeOf } from '../whole.ts';
import type { Intakes } from './intake.ts';
import type { IntakeColumns } from './intake-columns.ts';

/** Share of the bulk's reference below which the stage's limit folds back with it. */
const folded_ratio = 0.9;

export class IntakePorts {
  readonly count: number;
  readonly names: readonly string[];
  private readonly intakes: Intakes;
  private readonly plant: Plant;
  private readonly whole: IntakeColumns;

  constructor(intakes: Intakes, plant: Plant) {
    this.count = intakes.count;
    this.names = intakes.names;
    this.intakes = intakes;
    this.plant = plant;
    this.whole = wholeOf(intakes.columns);
  }

  /** Bulk voltage [V]. */
  bulk_V(k: number, at: Moment = this.plant): number {
    return at.x[this.intakes.offset + k]!;
  }

  private walkInPlace(k: Int): Int {
    return this.intakes.offset + 3 * this.intakes.count + k;
  }

  /** No walk-in holds it back. */
  hasWalkedIn(k: Int): boolean {
    return this.plant.x[this.walkInPlace(k)]! >= this.intakes.columns.limit_W[k]!;
  }

  isWalkingIn(k: number): boolean {
    return this.intakes.walking[k] === 1;
  }

  /** AC is at its terminals. */
  hasAc(k: Int): boolean {
    return this.intakes.present[k] === 1;
  }

  /** Power taken from the line [W]. */
  line_W(k: number): number {
    const { intakes, plant } = this;
    const p = plant.x[intakes.offset + 2 * intakes.count + k]!;
    return p + intakes.acLoss_W(k, p);
  }

  /** √3 V_LL PF of its line as it is, and as the model states it [V]. */
  line_V(k: number): number {
    return this.intakes.columns.lineVoltage_V[k]!;
  }

  nominalLine_V(k: number): number {
    return this.whole.lineVoltage_V[k]!;
  }

  /** Most power into the bulk of what is alive [W]. */
  limit_W(k: number): number {
    return this.intakes.columns.limit_W[k]!;
  }

  /** Bulk voltage below which the DC stage stops, and above which it starts again [V]. */
  minimum_V(k: number): number {
    return this.intakes.columns.bulk_voltage_min_V[k]!;
  }

  restart_V(k: number): number {
    return this.intakes.columns.restart_V[k]!;
  }

  /** The stage's limit is folded back with the bulk. */
  isFolded(k: number): boolean {
    return this.bulk_V(k) < folded_ratio * this.intakes.columns.bulk_voltage_V[k]!;
  }

  /** At output voltage v the power limit lies below the current limit. */
  isPowerLimited(k: number, v: number): boolean {
    const { outputLimit_W, currentLimit_A } = this.intakes.columns;
    return outputLimit_W[k]! < currentLimit_A[k]! * v;
  }

  /** AC comes to its terminals, or goes. */
  connect(k: number, present: boolean): void {
    this.intakes.present[k] = present ? 1 : 0;
  }

  walkIn(k: number, walking: boolean): void {
    this.intakes.walking[k] = walking ? 1 : 0;
  }

  /** Jump: the walk-in ramp back to nothing. */
  resetWalkIn(k: number): void {
    this.plant.x[this.walkInPlace(k)] = 0;
  }

  /** Most power that the line gives [W], and √3 V_LL PF of it [V]; on a feeder that gives way both at its nominal voltage. */
  commandLine(k: number, most_W: number, line_V: number): void {
    const { intakes } = this;
    intakes.granted_W[k] = most_W;
    intakes.nominalLine_V[k] = line_V;
    intakes.give(k, intakes.lineRatio[k]!);
  }

  /** One of three phases is lost, or back: the power pulses otherwise. */
  losePhase(k: number, lost: boolean): void {
    this.intakes.ripple.losePhase(k, lost);
  }

  /** Limits of the output. */
  commandLimits(k: number, current_A: number, power_W: number): void {
    this.intakes.columns.currentLimit_A[k] = current_A;
    this.intakes.columns.outputLimit_W[k] = power_W;
  }

  /**
   * Gives it this share of its whole size, `before` until now. What modules that leave carried goes with them: loop
   * memory and input power shrink at once. Returns the energy of the bulk capacitors that leave; negative when modules
   * come back, charged as the others are [J].
   */
  resize(k: number, share: number, before: number): number {
    const { intakes, plant } = this;
    const { offset, count, columns } = intakes;
    const { x } = plant;
    const bulkBefore_F = columns.bulk_F[k]!;
    const fullBefore_W = columns.limit_W[k]!;
    intakes.resize(k, share, this.whole);
    const shrink = share / before;
    if (shrink < 1) for (const state of [1, 2]) x[offset + state * count + k]! *= shrink;
    const ramp = this.walkInPlace(k);
    x[ramp] = x[ramp]! >= fullBefore_W ? columns.limit_W[k]! : x[ramp]! * shrink;
    const bulk_V = this.bulk_V(k);
    return ((bulkBefore_F - columns.bulk_F[k]!) * bulk_V * bulk_V) / 2;
  }
}
