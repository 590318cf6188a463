/**
 * Walk-in and bulk guard of the shelves: after AC returns each shelf waits its own time, then ramps its input
 * power; a shelf whose bulk is empty stops its DC stage and starts it again when the bulk is full.
 * A loss shorter than the detection time is ridden through without walk-in.
 */
import type { Intakes } from '../devices/intake.ts';
import type { Stages } from '../devices/stage.ts';
import type { Log } from '../events/log.ts';
import type { Plant, Watcher } from './task.ts';

/** How far above the stop voltage the bulk is watched at every supervision sample [V]. */
const watch_V = 20;

export class WalkIn implements Watcher {
  readonly name = 'walk-in';
  /** Shelves that have tripped for good. */
  readonly tripped: Uint8Array;
  private readonly startAt: Float64Array;
  private readonly lostAt: Float64Array;
  private readonly done: Uint8Array;
  private readonly delay: Float64Array;
  private readonly detection: number;
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly plant: Plant;
  private readonly log: Log;

  /** `delay`: wait of each shelf after AC return; `detection`: both in ticks. */
  constructor(
    delay: Float64Array,
    detection: number,
    stages: Stages,
    intakes: Intakes,
    plant: Plant,
    log: Log,
  ) {
    this.delay = delay;
    this.detection = detection;
    this.stages = stages;
    this.intakes = intakes;
    this.plant = plant;
    this.log = log;
    this.tripped = new Uint8Array(intakes.count);
    this.done = new Uint8Array(intakes.count).fill(1);
    this.startAt = new Float64Array(intakes.count).fill(Number.POSITIVE_INFINITY);
    this.lostAt = new Float64Array(intakes.count).fill(Number.NEGATIVE_INFINITY);
  }

  private ramp(k: number): number {
    return this.intakes.offset + 3 * this.intakes.count + k;
  }

  /** AC goes at shelf k. */
  lose(k: number, tick: number): void {
    this.intakes.present[k] = 0;
    this.lostAt[k] = tick;
    this.startAt[k] = Number.POSITIVE_INFINITY;
  }

  /** AC is back at shelf k. */
  restore(k: number, tick: number): void {
    this.intakes.present[k] = 1;
    if (this.tripped[k] || tick - this.lostAt[k]! < this.detection) return;
    this.intakes.walking[k] = 0;
    this.plant.x[this.ramp(k)] = 0;
    this.done[k] = 0;
    this.startAt[k] = tick + this.delay[k]!;
  }

  /** A shelf trips: its DC stage stops for good. */
  trip(k: number): void {
    this.tripped[k] = 1;
    this.stages.running[k] = 0;
  }

  /** Shelf k serves nothing though nothing keeps it waiting: tripped, or on AC, walked in, and its stage stands. */
  isOut(k: number): boolean {
    if (this.tripped[k]) return true;
    if (this.stages.running[k] || !this.intakes.present[k]) return false;
    return this.plant.x[this.ramp(k)]! >= this.intakes.columns.limit_W[k]!;
  }

  /** No shelf on AC is held back by its walk-in. */
  isOver(): boolean {
    for (let k = 0; k < this.intakes.count; k++) {
      if (this.tripped[k]) continue;
      if (!this.intakes.present[k] || this.plant.x[this.ramp(k)]! < this.intakes.columns.limit_W[k]!)
        return false;
    }
    return true;
  }

  isBusy(): boolean {
    const { intakes, plant } = this;
    for (let k = 0; k < intakes.count; k++) {
      if (this.tripped[k]) continue;
      if (!this.done[k]) return true;
      if (this.stages.running[k] && plant.x[intakes.offset + k]! < intakes.columns.minimum_V[k]! + watch_V)
        return true;
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
    const { intakes, stages, plant } = this;
    let kick = 0;
    for (let k = 0; k < intakes.count; k++) {
      if (this.tripped[k]) continue;
      const name = intakes.names[k]!;
      const bulk = plant.x[intakes.offset + k]!;
      if (tick >= this.startAt[k]!) {
        this.startAt[k] = Number.POSITIVE_INFINITY;
        intakes.walking[k] = 1;
        this.log.note(name, 'walk-in', 'walk-in begins');
      }
      if (intakes.walking[k] && plant.x[this.ramp(k)]! >= intakes.columns.limit_W[k]!) {
        intakes.walking[k] = 0;
        this.done[k] = 1;
        this.log.note(name, 'walk-in', 'walk-in ends');
      }
      if (stages.running[k] && bulk < intakes.columns.minimum_V[k]!) {
        stages.running[k] = 0;
        this.log.note(name, 'dc-stop', `bulk at ${bulk.toFixed(1)} V, DC stage stops`);
        kick = Number.POSITIVE_INFINITY;
      } else if (!stages.running[k] && intakes.present[k] && bulk > intakes.columns.restart_V[k]!) {
        stages.running[k] = 1;
        this.log.note(name, 'dc-restart', `bulk at ${bulk.toFixed(1)} V, DC stage starts`);
        kick = Number.POSITIVE_INFINITY;
      }
    }
    return kick;
  }
}
