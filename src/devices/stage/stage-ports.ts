/**
 * What firmware senses of output stages and commands them: of the rectifier shelves or of the battery shelves, each
 * counted from 0. `at`: the moment that is looked at, the present one unless another is named.
 */
import type { Int } from '../../base/int.ts';
import type { Moment, Plant } from '../plant.ts';
import { wholeOf } from '../whole.ts';
import { type Stages, stageMode } from './stage.ts';
import type { StageColumns } from './stage-columns.ts';

export class StagePorts {
  readonly count: number;
  readonly names: readonly string[];
  private readonly stages: Stages;
  private readonly first: Int;
  private readonly plant: Plant;
  private readonly whole: StageColumns;

  /** Ports of `count` stages from `first` on. */
  constructor(stages: Stages, first: Int, count: number, plant: Plant) {
    this.stages = stages;
    this.first = first;
    this.count = count;
    this.names = stages.names.slice(first, first + count);
    this.plant = plant;
    this.whole = wholeOf(stages.columns);
  }

  /** Output current [A]. */
  current_A(k: number, at: Moment = this.plant): number {
    return at.x[this.stages.offset + this.first + k]!;
  }

  /** Voltage at the output [V]. */
  output_V(k: number, at: Moment = this.plant): number {
    return at.v[this.stages.node[this.first + k]!]!;
  }

  isRunning(k: Int): boolean {
    return this.stages.running[this.first + k] === 1;
  }

  isAnyRunning(): boolean {
    for (let k = 0; k < this.count; k++) if (this.isRunning(k)) return true;
    return false;
  }

  /** Its current limit holds it. */
  isAtLimit(k: number): boolean {
    return this.stages.mode[this.first + k] === stageMode.limit;
  }

  /** A clamp that lasts holds it: its limit, zero, or that it stands still. */
  isClamped(k: Int): boolean {
    const held = this.stages.mode[this.first + k]!;
    return held === stageMode.limit || held === stageMode.zero || held === stageMode.off;
  }

  /** Highest current that it may give now: its current limit, folded back with power and bulk [A]. */
  limit_A(k: number): number {
    return this.stages.limit1_A[this.first + k]!;
  }

  /** Share of its modules that are alive. */
  alive_ratio(k: number): number {
    return this.rated_A(k) / this.whole.rated_A[this.first + k]!;
  }

  /** Rated current of what is alive [A]. */
  rated_A(k: number): number {
    return this.stages.columns.rated_A[this.first + k]!;
  }

  /** Slope of its line at rest, volts lost per ampere [Ω]. */
  staticDroop_ohm(k: number): number {
    return this.stages.staticDroop_ohm(this.first + k);
  }

  /** Time constant of its current [s]. */
  currentLag_s(k: number): number {
    return this.stages.columns.current_lag_s[this.first + k]!;
  }

  /** Bus voltage below which the current that it takes folds back [V]. */
  foldBack_V(k: number): number {
    return this.stages.columns.foldBack_V[this.first + k]!;
  }

  /** Set point as commanded [V]. */
  setPoint_V(k: number): number {
    return this.stages.setPoint_V[this.first + k]!;
  }

  /** What its voltage loop aims at without load: set point and trim, as commanded [V]. */
  reference_V(k: number): number {
    return this.setPoint_V(k) + this.stages.trim_V[this.first + k]!;
  }

  /** Current that it is commanded to, where firmware closes its loop [A]. */
  command_A(k: number): number {
    return this.stages.command_A[this.first + k]!;
  }

  /** Current that it takes while it stands, as commanded: 0 or negative [A]. */
  resting_A(k: number): number {
    return this.stages.rest_A[this.first + k]!;
  }

  /** Starts or stops it. */
  run(k: number, running: boolean): void {
    this.stages.running[this.first + k] = running ? 1 : 0;
  }

  commandSetPoint(k: number, set_V: number): void {
    this.stages.setPoint_V[this.first + k] = set_V;
  }

  /**
   * Returns how hard the change of trim kicks the bus: V K_p Δu/τ_i [W/s]; not at all where firmware closes the loop.
   */
  commandTrim(k: number, trim_V: number): number {
    const { columns, trim_V: trims, setPoint_V } = this.stages;
    const s = this.first + k;
    const change = Math.abs(trim_V - trims[s]!);
    trims[s] = trim_V;
    if (columns.isCommanded[s] === 1) return 0;
    return (change * columns.proportional_gain_A_per_V[s]! * setPoint_V[s]!) / columns.current_lag_s[s]!;
  }

  /**
   * Commands the current of a unit whose loop firmware closes, and tells what holds it there. Returns how hard the change
   * kicks the bus: V Δi/τ_i [W/s].
   */
  commandCurrent(k: number, current_A: number, heldBy: keyof typeof stageMode): number {
    const { columns, command_A, setPoint_V, mode } = this.stages;
    const s = this.first + k;
    const change = Math.abs(current_A - command_A[s]!);
    command_A[s] = current_A;
    mode[s] = stageMode[heldBy];
    return (change * setPoint_V[s]!) / columns.current_lag_s[s]!;
  }

  /** Current that it goes to while it stands [A]. */
  commandResting(k: number, rest_A: number): void {
    this.stages.rest_A[this.first + k] = rest_A;
  }

  /** Where its current command stands, for who differentiates over it. */
  currentCommand(k: number): { readonly target: Float64Array; readonly place: number } {
    return { target: this.stages.command_A, place: this.first + k };
  }

  /** Where its trim command stands, for who differentiates over it. */
  trimCommand(k: number): { readonly target: Float64Array; readonly place: number } {
    return { target: this.stages.trim_V, place: this.first + k };
  }

  /**
   * Gives it this share of its whole size, `before` until now. What modules that leave carried goes with them: the
   * loop's memory shrinks at once, the current follows within its slew limit.
   */
  resize(k: number, share: number, before: number): void {
    const { stages, first } = this;
    stages.resize(first + k, share, this.whole);
    const shrink = share / before;
    if (shrink >= 1) return;
    const { x } = this.plant;
    for (const state of [1, 2]) x[stages.offset + state * stages.count + first + k]! *= shrink;
  }
}
