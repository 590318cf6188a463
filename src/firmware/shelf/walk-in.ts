/**
 * Walk-in and bulk guard of the shelves: after AC returns each shelf waits its own time, then ramps its input
 * power; a shelf whose bulk is empty stops its DC stage and starts it again when the bulk is full.
 * A loss shorter than the detection time is ridden through: a walk-in that it fell into goes on where it stood.
 * AC is gone while any cause of its loss lasts (the feeder, a line too low to work on, or one that has collapsed).
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { SpanTrack } from '../../events/span-book.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { ShelfGuard } from './shelf-guard.ts';

/** How far above the stop voltage the bulk is watched at every supervision sample [V]. */
const watch_V = 20;

/** Why AC is gone at a shelf; a set of flags. */
export const acGone = { feeder: 1, brownOut: 2, collapse: 4 } as const;

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
  /** Wait of each shelf after AC return [ticks]. */
  private readonly delay: Float64Array;
  private readonly site: Site;
  private readonly guard: ShelfGuard;

  constructor(site: Site, shelves: readonly ShelfValues[], guard: ShelfGuard) {
    const { intakes, log } = site;
    this.site = site;
    this.guard = guard;
    this.delay = Float64Array.from(shelves, ({ start_delay_s }) => site.ticks(start_delay_s));
    this.gone = new Uint8Array(intakes.count);
    this.done = new Uint8Array(intakes.count).fill(1);
    this.paused = new Uint8Array(intakes.count);
    this.startAt = new Float64Array(intakes.count).fill(Number.POSITIVE_INFINITY);
    this.lostAt = new Float64Array(intakes.count).fill(Number.NEGATIVE_INFINITY);
    this.walks = intakes.names.map((name) => log.spans.track('walk-in', name, ''));
    this.losses = {
      [acGone.feeder]: intakes.names.map((name) => log.spans.track('ac-lost', name, 'feeder')),
      [acGone.brownOut]: intakes.names.map((name) => log.spans.track('ac-lost', name, 'brown-out')),
      [acGone.collapse]: intakes.names.map((name) => log.spans.track('ac-lost', name, 'supply collapse')),
    };
  }

  /** AC goes at shelf k. */
  lose(k: number, tick: number, why: AcGone = acGone.feeder): void {
    const { intakes, log } = this.site;
    const was = this.gone[k]!;
    this.gone[k] = was | why;
    if (was !== 0) return;
    intakes.connect(k, false);
    this.losses[why][k]!.begin();
    this.walks[k]!.end();
    this.lostAt[k] = tick;
    this.paused[k] = intakes.isWalkingIn(k) ? 1 : 0;
    intakes.walkIn(k, false);
    if (!this.done[k]) log.note(intakes.names[k]!, 'walk-in', 'AC is lost before its end');
  }

  /** AC is back at shelf k. */
  restore(k: number, tick: number, why: AcGone = acGone.feeder): void {
    const { intakes, detection } = this.site;
    const was = this.gone[k]!;
    this.gone[k] = was & ~why;
    if (was === 0 || this.gone[k] !== 0) return;
    intakes.connect(k, true);
    if (this.guard.isOut(k)) {
      this.endLoss(k);
      return;
    }
    if (tick - this.lostAt[k]! < detection) {
      if (this.startAt[k] === Number.POSITIVE_INFINITY) this.endLoss(k);
      intakes.walkIn(k, this.paused[k] === 1);
      this.walks[k]!.set(this.paused[k] === 1);
      return;
    }
    intakes.walkIn(k, false);
    intakes.resetWalkIn(k);
    this.done[k] = 0;
    this.startAt[k] = tick + this.delay[k]!;
  }

  /** Shelf k no longer counts AC as lost. */
  private endLoss(k: number): void {
    this.losses[acGone.feeder][k]!.end();
    this.losses[acGone.brownOut][k]!.end();
    this.losses[acGone.collapse][k]!.end();
  }

  /** A shelf that is out waits for no walk-in, and none of its takes load back. */
  private standBy(k: number): void {
    if (this.site.intakes.hasAc(k)) this.endLoss(k);
    this.walks[k]!.end();
  }

  /** Shelf k serves nothing though nothing keeps it waiting: tripped, or on AC, walked in, and its stage stands. */
  isOut(k: number): boolean {
    if (this.guard.stands(k)) return true;
    const { shelves, intakes } = this.site;
    return !shelves.isRunning(k) && intakes.hasAc(k) && intakes.hasWalkedIn(k);
  }

  /** No shelf on AC is held back by its walk-in. */
  isOver(): boolean {
    const { intakes } = this.site;
    for (let k = 0; k < intakes.count; k++) {
      if (this.guard.isOut(k)) continue;
      if (!intakes.hasAc(k) || !intakes.hasWalkedIn(k)) return false;
    }
    return true;
  }

  isBusy(): boolean {
    const { shelves, intakes } = this.site;
    for (let k = 0; k < intakes.count; k++) {
      if (shelves.isRunning(k)) {
        if (!this.done[k]) return true;
        if (intakes.bulk_V(k) < intakes.minimum_V(k) + watch_V) return true;
      } else if (!this.guard.isOut(k) && (!this.done[k] || intakes.hasAc(k))) return true;
    }
    return false;
  }

  isMissed(end: Moment): boolean {
    const { shelves, intakes } = this.site;
    for (let k = 0; k < intakes.count; k++) {
      if (shelves.isRunning(k) && intakes.bulk_V(k, end) < intakes.minimum_V(k)) return true;
    }
    return false;
  }

  waitFor(waits: Waits): void {
    const { shelves, intakes } = this.site;
    for (let k = 0; k < intakes.count; k++)
      if (shelves.isRunning(k)) waits.bulkBelow(k, intakes.minimum_V(k) + watch_V);
  }

  run(tick: number): number {
    const { guard } = this;
    const { shelves, intakes, log } = this.site;
    let kick = 0;
    for (let k = 0; k < intakes.count; k++) {
      if (guard.isOut(k)) {
        this.standBy(k);
        continue;
      }
      const name = intakes.names[k]!;
      const bulk_V = intakes.bulk_V(k);
      if (intakes.hasAc(k) && tick >= this.startAt[k]!) {
        this.startAt[k] = Number.POSITIVE_INFINITY;
        intakes.walkIn(k, true);
        this.endLoss(k);
        log.note(name, 'walk-in', 'walk-in begins');
      }
      if (intakes.isWalkingIn(k) && intakes.hasWalkedIn(k)) {
        intakes.walkIn(k, false);
        this.done[k] = 1;
        log.note(name, 'walk-in', 'walk-in ends');
      }
      this.walks[k]!.set(intakes.isWalkingIn(k));
      if (shelves.isRunning(k) && bulk_V < intakes.minimum_V(k)) kick += guard.empty(k, bulk_V);
      else if (!shelves.isRunning(k)) kick += guard.refill(k, tick);
    }
    return kick;
  }
}
