/**
 * Walk-in and bulk guard of the shelves: after AC returns each shelf waits its own time, then ramps its input
 * power; a shelf whose bulk is empty stops its DC stage and starts it again when the bulk is full.
 * A loss shorter than the detection time is ridden through: a walk-in that it fell into goes on where it stood.
 * AC is gone while any cause of its loss lasts (the feeder, or a line too low to work on).
 */
import type { Intakes } from '../devices/intake/intake.ts';
import type { Stages } from '../devices/stage/stage.ts';
import type { Log } from '../events/log.ts';
import type { SpanTrack } from '../events/span-book.ts';
import type { ShelfGuard } from './shelf-guard.ts';
import type { Plant, Watcher } from './task.ts';

/** How far above the stop voltage the bulk is watched at every supervision sample [V]. */
const watch_V = 20;

/** Why AC is gone at a shelf; a set of flags. */
export const acGone = { feeder: 1, brownOut: 2 } as const;

export type AcGone = (typeof acGone)[keyof typeof acGone];

export class WalkIn implements Watcher {
  readonly name = 'walk-in';
  private readonly gone: Uint8Array;
  private readonly startAt: Float64Array;
  private readonly lostAt: Float64Array;
  private readonly done: Uint8Array;
  /** AC went while the ramp ran. */
  private readonly paused: Uint8Array;
  /** Spans of each shelf: its walk-in; AC counted as lost, by what took it. */
  private readonly walks: readonly SpanTrack[];
  private readonly losses: Readonly<Record<AcGone, readonly SpanTrack[]>>;
  private readonly delay: Float64Array;
  private readonly detection: number;
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly guard: ShelfGuard;
  private readonly plant: Plant;
  private readonly log: Log;

  /** `delay`: wait of each shelf after AC return; `detection`: both in ticks. */
  constructor(
    delay: Float64Array,
    detection: number,
    stages: Stages,
    intakes: Intakes,
    guard: ShelfGuard,
    plant: Plant,
    log: Log,
  ) {
    this.delay = delay;
    this.detection = detection;
    this.stages = stages;
    this.intakes = intakes;
    this.guard = guard;
    this.plant = plant;
    this.log = log;
    this.gone = new Uint8Array(intakes.count);
    this.done = new Uint8Array(intakes.count).fill(1);
    this.paused = new Uint8Array(intakes.count);
    this.startAt = new Float64Array(intakes.count).fill(Number.POSITIVE_INFINITY);
    this.lostAt = new Float64Array(intakes.count).fill(Number.NEGATIVE_INFINITY);
    this.walks = intakes.names.map((name) => log.spans.track('walk-in', name, ''));
    this.losses = {
      [acGone.feeder]: intakes.names.map((name) => log.spans.track('ac-lost', name, 'feeder')),
      [acGone.brownOut]: intakes.names.map((name) => log.spans.track('ac-lost', name, 'brown-out')),
    };
  }

  private ramp(k: number): number {
    return this.intakes.offset + 3 * this.intakes.count + k;
  }

  /** AC goes at shelf k. */
  lose(k: number, tick: number, why: AcGone = acGone.feeder): void {
    const was = this.gone[k]!;
    this.gone[k] = was | why;
    if (was !== 0) return;
    this.intakes.present[k] = 0;
    this.losses[why][k]!.begin();
    this.walks[k]!.end();
    this.lostAt[k] = tick;
    this.paused[k] = this.intakes.walking[k]!;
    this.intakes.walking[k] = 0;
    if (!this.done[k]) this.log.note(this.intakes.names[k]!, 'walk-in', 'AC is lost before its end');
  }

  /** AC is back at shelf k. */
  restore(k: number, tick: number, why: AcGone = acGone.feeder): void {
    const was = this.gone[k]!;
    this.gone[k] = was & ~why;
    if (was === 0 || this.gone[k] !== 0) return;
    this.intakes.present[k] = 1;
    if (this.guard.isOut(k)) {
      this.endLoss(k);
      return;
    }
    if (tick - this.lostAt[k]! < this.detection) {
      if (this.startAt[k] === Number.POSITIVE_INFINITY) this.endLoss(k);
      this.intakes.walking[k] = this.paused[k]!;
      this.walks[k]!.set(this.paused[k] === 1);
      return;
    }
    this.intakes.walking[k] = 0;
    this.plant.x[this.ramp(k)] = 0;
    this.done[k] = 0;
    this.startAt[k] = tick + this.delay[k]!;
  }

  /** Shelf k no longer counts AC as lost. */
  private endLoss(k: number): void {
    this.losses[acGone.feeder][k]!.end();
    this.losses[acGone.brownOut][k]!.end();
  }

  /** A shelf that is out waits for no walk-in, and none of its takes load back. */
  private standBy(k: number): void {
    if (this.intakes.present[k]) this.endLoss(k);
    this.walks[k]!.end();
  }

  /** Shelf k serves nothing though nothing keeps it waiting: tripped, or on AC, walked in, and its stage stands. */
  isOut(k: number): boolean {
    if (this.guard.stands(k)) return true;
    if (this.stages.running[k] || !this.intakes.present[k]) return false;
    return this.plant.x[this.ramp(k)]! >= this.intakes.columns.limit_W[k]!;
  }

  /** No shelf on AC is held back by its walk-in. */
  isOver(): boolean {
    for (let k = 0; k < this.intakes.count; k++) {
      if (this.guard.isOut(k)) continue;
      if (!this.intakes.present[k] || this.plant.x[this.ramp(k)]! < this.intakes.columns.limit_W[k]!)
        return false;
    }
    return true;
  }

  isBusy(): boolean {
    const { intakes, plant, guard } = this;
    for (let k = 0; k < intakes.count; k++) {
      if (this.stages.running[k]) {
        if (!this.done[k]) return true;
        if (plant.x[intakes.offset + k]! < intakes.columns.minimum_V[k]! + watch_V) return true;
      } else if (!guard.isOut(k) && (!this.done[k] || intakes.present[k])) return true;
    }
    return false;
  }

  isMissed(x1: Float64Array): boolean {
    const { intakes } = this;
    for (let k = 0; k < intakes.count; k++) {
      if (this.stages.running[k] && x1[intakes.offset + k]! < intakes.columns.minimum_V[k]!) return true;
    }
    return false;
  }

  run(tick: number): number {
    const { intakes, stages, plant, guard } = this;
    let kick = 0;
    for (let k = 0; k < intakes.count; k++) {
      if (guard.isOut(k)) {
        this.standBy(k);
        continue;
      }
      const name = intakes.names[k]!;
      const bulk = plant.x[intakes.offset + k]!;
      if (intakes.present[k] && tick >= this.startAt[k]!) {
        this.startAt[k] = Number.POSITIVE_INFINITY;
        intakes.walking[k] = 1;
        this.endLoss(k);
        this.log.note(name, 'walk-in', 'walk-in begins');
      }
      if (intakes.walking[k] && plant.x[this.ramp(k)]! >= intakes.columns.limit_W[k]!) {
        intakes.walking[k] = 0;
        this.done[k] = 1;
        this.log.note(name, 'walk-in', 'walk-in ends');
      }
      this.walks[k]!.set(intakes.walking[k] === 1);
      if (stages.running[k] && bulk < intakes.columns.minimum_V[k]!) kick += guard.empty(k, bulk);
      else if (!stages.running[k]) kick += guard.refill(k, tick);
    }
    return kick;
  }
}
