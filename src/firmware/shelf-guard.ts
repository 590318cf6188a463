/**
 * What a shelf guards its output stage with, and how it starts again. One machine per shelf, on the supervisor's
 * samples:
 *
 *   on        runs
 *   starting  runs with its current limit on the way up (soft start)
 *   empty     stands until AC is there and the bulk is full
 *   resting   has tripped, tries again after its rest (hiccup)
 *   out       stands for good: tripped by an event, failed, or latched; only a join brings it back
 *
 * Trips by overload and by a held under-voltage hiccup and latch after their tries; over-voltage latches at once,
 * and only a stage that delivers counts as one that lifts the bus. Power beyond the sustained limit is held to it
 * after its time and let go 10 ms after the stage has left its limit by itself. The short-term current limit has an
 * allowance that its use spends and its duty gives back.
 */
import type { Intakes } from '../devices/intake.ts';
import { type Stages, stageMode } from '../devices/stage.ts';
import type { Log } from '../events/log.ts';
import type { ShelfValues } from '../scenario/parameters/shelf.ts';
import { drainOf, Overload } from './overload.ts';
import type { ShelfLimits } from './shelf-limits.ts';
import type { Plant, Watcher } from './task.ts';

export type ShelfPhase = 'on' | 'starting' | 'empty' | 'resting' | 'out';

/** A stage is free of its limit when it has not been at it for this long [s]. */
export const freeOfLimit_s = 0.01;

/** Without any output stage for this long, nothing holds the bus any more [s]. */
const dead_s = 0.05;

/** Current into a shelf, over rated, that counts as reversed. */
const reversed_ratio = 0.01;

/** Nobody holds the bus any more: when the last shelf went, which it was, and why each did. */
export interface Dead {
  readonly tick: number;
  readonly last: string;
  readonly cause: string;
}

export class ShelfGuard implements Watcher {
  readonly name = 'shelf guard';
  readonly phase: ShelfPhase[];
  /** Trips of each shelf since it last ran long enough to forget them. */
  readonly tries: Float64Array;
  readonly limits: ShelfLimits;
  /** Set once nothing holds the bus any more. */
  dead: Dead | null = null;
  /** Something is counted or waited for. */
  private pending = false;
  private readonly shelves: readonly ShelfValues[];
  private readonly overload: readonly Overload[];
  private readonly why: string[];
  private readonly lost: Float64Array;
  private readonly since: Float64Array;
  private readonly freeAt: Float64Array;
  private readonly reversed: Uint8Array;
  private readonly beyond_s: Float64Array;
  private readonly peak_s: Float64Array;
  private readonly short_s: Float64Array;
  private readonly over_s: Float64Array;
  /** Thresholds of being watched: current over rated, power over rated, voltage [V]. */
  private readonly leastCurrent: Float64Array;
  private readonly leastPower: Float64Array;
  private readonly high_V: Float64Array;
  private readonly low_V: Float64Array;
  private readonly anyPower: boolean;
  private readonly lowest_V: number;
  private noStageSince = Number.NaN;
  private readonly tick_s: number;
  private readonly period_s: number;
  private readonly stages: Stages;
  private readonly intakes: Intakes;
  private readonly starting: Uint8Array;
  private readonly isBatteryComing: () => boolean;
  private readonly plant: Plant;
  private readonly log: Log;

  /**
   * `period`: of supervision, in ticks. `starting`: written here, read by the share: shelves in soft start.
   * `isBatteryComing`: a battery shelf is about to carry.
   */
  constructor(
    shelves: readonly ShelfValues[],
    tick_s: number,
    period: number,
    limits: ShelfLimits,
    stages: Stages,
    intakes: Intakes,
    starting: Uint8Array,
    isBatteryComing: () => boolean,
    plant: Plant,
    log: Log,
  ) {
    const n = shelves.length;
    const zeros = (): Float64Array => new Float64Array(n);
    const none = Number.POSITIVE_INFINITY;
    this.shelves = shelves;
    this.tick_s = tick_s;
    this.period_s = period * tick_s;
    this.limits = limits;
    this.stages = stages;
    this.intakes = intakes;
    this.starting = starting;
    this.isBatteryComing = isBatteryComing;
    this.plant = plant;
    this.log = log;
    this.phase = shelves.map(() => 'on');
    this.tries = zeros();
    this.overload = shelves.map((s) => new Overload(s));
    this.why = shelves.map(() => '');
    this.lost = zeros();
    this.since = zeros();
    this.freeAt = zeros();
    this.reversed = new Uint8Array(n);
    this.beyond_s = zeros();
    this.peak_s = zeros();
    this.short_s = zeros();
    this.over_s = zeros();
    const per = (read: (s: ShelfValues, k: number) => number): Float64Array =>
      Float64Array.from(shelves, read);
    this.leastCurrent = per((s, k) =>
      Math.min(this.overload[k]!.least, limits.isPeak[k] ? s.current_limit_ratio : none),
    );
    this.leastPower = per((s) => (s.sustained_power_limit_ratio > 0 ? s.sustained_power_limit_ratio : none));
    this.high_V = per((s) => (s.over_voltage_ratio > 0 ? s.over_voltage_ratio * s.rated_voltage_V : none));
    this.low_V = per((s) => s.under_voltage_ratio * s.rated_voltage_V);
    this.anyPower = this.leastPower.some(Number.isFinite);
    this.lowest_V = this.low_V.reduce((a, b) => Math.max(a, b), 0);
  }

  /** Something at shelf k must be looked at, given states and voltages. */
  private asks(k: number, x: Float64Array, v: Float64Array): boolean {
    const { stages } = this;
    const i = x[stages.offset + k]!;
    const rated = stages.columns.rated_A[k]!;
    if (!stages.running[k]) return i < -reversed_ratio * rated && !this.reversed[k];
    if (stages.mode[k] === stageMode.limit || i > this.leastCurrent[k]! * rated) return true;
    const node = v[stages.node[k]!]!;
    if (node > this.high_V[k]!) return true;
    return this.anyPower && i * node > this.leastPower[k]! * this.limits.rated_W(k);
  }

  isBusy(lowest_V: number): boolean {
    if (this.pending || lowest_V < this.lowest_V) return true;
    for (let k = 0; k < this.shelves.length; k++) if (this.asks(k, this.plant.x, this.plant.v)) return true;
    return false;
  }

  isMissed(x1: Float64Array, v1: Float64Array, lowest_V: number): boolean {
    if (lowest_V < this.lowest_V) return true;
    for (let k = 0; k < this.shelves.length; k++) if (this.asks(k, x1, v1)) return true;
    return false;
  }

  run(tick: number): number {
    let kick = 0;
    this.pending = false;
    for (let k = 0; k < this.shelves.length; k++) kick += this.runOne(k, tick);
    this.lookForDeath(tick);
    return kick;
  }

  private runOne(k: number, tick: number): number {
    const { stages, plant, overload } = this;
    const i = plant.x[stages.offset + k]!;
    const rated = stages.columns.rated_A[k]!;
    const phase = this.phase[k]!;
    if (phase === 'resting') {
      this.pending = true;
      overload[k]!.advance(0, this.period_s);
      return tick >= this.since[k]! ? this.start(k, tick, 'tries again') : 0;
    }
    if (i < -reversed_ratio * rated && !this.reversed[k]) {
      this.reversed[k] = 1;
      this.log.note(stages.names[k]!, 'current-reversal', `draws ${(-i).toFixed(0)} A from the bus`);
    }
    if (!stages.running[k]) return 0;
    if (phase === 'starting') this.rise(k, tick);
    const v = plant.v[stages.node[k]!]!;
    const y = i / rated;
    const cause = overload[k]!.advance(y, this.period_s);
    if (cause !== null) return this.trip(k, tick, cause);
    if (this.isShort(k, v)) return this.trip(k, tick, `under-voltage: ${v.toFixed(1)} V at its output`);
    if (this.isOver(k, v, y)) return this.latch(k, tick, `over-voltage: ${v.toFixed(1)} V at its output`);
    this.watchPower(k, tick, i * v);
    this.watchPeak(k, y);
    const counts = this.beyond_s[k]! > 0 || this.peak_s[k]! > 0 || this.limits.isHeld[k] === 1;
    const waits = this.short_s[k]! > 0 || this.over_s[k]! > 0;
    if (counts || waits || overload[k]!.isWarm()) this.pending = true;
    return 0;
  }

  /** The soft start goes on. */
  private rise(k: number, tick: number): void {
    const along = (tick - this.since[k]!) / Math.round(this.shelves[k]!.soft_start_s / this.tick_s);
    this.pending = true;
    this.limits.soft[k] = along < 1 ? along : 1;
    this.limits.apply(k);
    if (along < 1) return;
    this.phase[k] = 'on';
    this.starting[k] = 0;
    this.log.note(this.stages.names[k]!, 'soft-start', 'soft start ends');
  }

  private isShort(k: number, v: number): boolean {
    const below = v < this.low_V[k]! && this.phase[k] === 'on';
    this.short_s[k] = below ? this.short_s[k]! + this.period_s : 0;
    return below && this.short_s[k]! >= this.shelves[k]!.under_voltage_time_s - this.period_s / 2;
  }

  private isOver(k: number, v: number, y: number): boolean {
    const s = this.shelves[k]!;
    const above = v > this.high_V[k]! && y > s.over_voltage_current_ratio;
    this.over_s[k] = above ? this.over_s[k]! + this.period_s : 0;
    return above && this.over_s[k]! >= s.over_voltage_time_s - this.period_s / 2;
  }

  private watchPower(k: number, tick: number, p: number): void {
    const { limits, stages } = this;
    const s = this.shelves[k]!;
    if (!(s.sustained_power_limit_ratio > 0)) return;
    const free = Math.round(freeOfLimit_s / this.tick_s);
    if (limits.isHeld[k]) {
      if (stages.mode[k] === stageMode.limit) this.freeAt[k] = tick + free;
      if (tick < this.freeAt[k]!) return;
      limits.isHeld[k] = 0;
      this.beyond_s[k] = 0;
      limits.apply(k);
      return;
    }
    const beyond = p > s.sustained_power_limit_ratio * limits.rated_W(k);
    this.beyond_s[k] = beyond ? this.beyond_s[k]! + this.period_s : 0;
    if (!beyond || this.beyond_s[k]! < s.sustained_power_time_s - this.period_s / 2) return;
    limits.isHeld[k] = 1;
    limits.apply(k);
    this.freeAt[k] = tick + free;
    const held = (100 * s.sustained_power_limit_ratio).toFixed(0);
    const above_ms = (1e3 * s.sustained_power_time_s).toFixed(0);
    this.log.note(
      stages.names[k]!,
      'limit-on',
      `above ${held} % of its power for ${above_ms} ms: held to ${held} %`,
    );
  }

  private watchPeak(k: number, y: number): void {
    const { limits } = this;
    const s = this.shelves[k]!;
    if (!(s.peak_current_limit_ratio > s.current_limit_ratio)) return;
    const above = y > s.current_limit_ratio * (1 + 1e-3);
    this.peak_s[k] = above
      ? this.peak_s[k]! + this.period_s
      : Math.max(0, this.peak_s[k]! - drainOf(s.peak_duty_ratio) * this.period_s);
    const name = this.stages.names[k]!;
    if (limits.isPeak[k] && this.peak_s[k]! >= s.peak_time_s - this.period_s / 2) {
      limits.isPeak[k] = 0;
      limits.apply(k);
      const spent = `short-term allowance of ${(1e3 * s.peak_time_s).toFixed(1)} ms is spent`;
      this.log.note(name, 'peak-spent', `${spent}: ${(100 * s.current_limit_ratio).toFixed(0)} % from here`);
    } else if (!limits.isPeak[k] && this.peak_s[k] === 0) {
      limits.isPeak[k] = 1;
      limits.apply(k);
      this.log.note(name, 'peak-back', 'short-term allowance is whole again');
    }
  }

  /** What limits shelf k at current i and voltage v, in words; null while its walk-in or soft start does. */
  limitWords(k: number, i: number, v: number): string | null {
    const { intakes, plant, limits } = this;
    const c = intakes.columns;
    const isFed = intakes.present[k] === 1;
    const ramp_W = plant.x[intakes.offset + 3 * intakes.count + k]!;
    if (this.phase[k] === 'starting' || (isFed && ramp_W < c.limit_W[k]!)) return null;
    const bulk_V = plant.x[intakes.offset + k]!;
    const at = `at ${i.toFixed(0)} A and ${v.toFixed(2)} V`;
    if (isFed && bulk_V < 0.9 * c.reference_V[k]!)
      return `limit folded back with its bulk at ${bulk_V.toFixed(1)} V: ${at}`;
    const derated = limits.derated[k]!;
    const cool = derated < 1 ? `, derated to ${(100 * derated).toFixed(0)} %` : '';
    const kind = c.outputLimit_W[k]! < c.currentLimit_A[k]! * v ? 'power' : 'current';
    return `${kind} limit takes hold ${at}${cool}`;
  }

  /** A trip that may be tried again. */
  private trip(k: number, tick: number, cause: string): number {
    const s = this.shelves[k]!;
    if (tick - this.since[k]! >= Math.round(s.hiccup_forget_s / this.tick_s)) this.tries[k] = 0;
    this.tries[k]!++;
    const tries = this.tries[k]!;
    const retries = s.hiccup_retries_count;
    if (tries > retries) {
      return this.latch(k, tick, tries === 1 ? cause : `${cause}; ${retries} tries were not enough`);
    }
    this.stop(k, 'resting');
    this.why[k] = cause;
    this.lost[k] = tick;
    this.since[k] = tick + Math.round(s.hiccup_off_s / this.tick_s);
    const again = `tries again in ${s.hiccup_off_s} s (${tries} of ${retries})`;
    this.log.note(this.stages.names[k]!, 'shelf-trip', `${cause}; stops, ${again}`);
    return Number.POSITIVE_INFINITY;
  }

  /** A trip for good. */
  private latch(k: number, tick: number, cause: string): number {
    this.stop(k, 'out');
    this.why[k] = cause;
    this.lost[k] = tick;
    this.log.note(this.stages.names[k]!, 'shelf-latch', `${cause}; latched off`);
    return Number.POSITIVE_INFINITY;
  }

  private stop(k: number, phase: ShelfPhase): void {
    this.stages.running[k] = 0;
    this.phase[k] = phase;
    this.starting[k] = 0;
    this.beyond_s[k] = 0;
    this.short_s[k] = 0;
    this.over_s[k] = 0;
    this.limits.isHeld[k] = 0;
    this.limits.soft[k] = 1;
    this.limits.apply(k);
    this.pending = true;
  }

  /** The DC stage starts, softly where the shelf can; it stays `empty` while AC or bulk are not there. Returns the kick. */
  private start(k: number, tick: number, words: string): number {
    const { intakes, plant, stages } = this;
    const name = stages.names[k]!;
    this.pending = true;
    if (!this.isFed(k)) {
      if (this.phase[k] !== 'empty') this.log.note(name, 'soft-start', `${words}: waits for its bulk`);
      this.phase[k] = 'empty';
      return 0;
    }
    const s = this.shelves[k]!;
    stages.running[k] = 1;
    this.since[k] = tick;
    const softly = s.soft_start_s > 0;
    this.phase[k] = softly ? 'starting' : 'on';
    this.starting[k] = softly ? 1 : 0;
    this.limits.soft[k] = softly ? 0 : 1;
    this.limits.apply(k);
    const bulk = `bulk at ${plant.x[intakes.offset + k]!.toFixed(1)} V`;
    const soft = softly ? `, softly over ${(1e3 * s.soft_start_s).toFixed(0)} ms` : '';
    this.log.note(name, 'dc-restart', `${words === '' ? '' : `${words}: `}${bulk}, DC stage starts${soft}`);
    return Number.POSITIVE_INFINITY;
  }

  /** AC is there and the bulk is full enough to start on. */
  private isFed(k: number): boolean {
    const { intakes, plant } = this;
    return intakes.present[k] === 1 && plant.x[intakes.offset + k]! > intakes.columns.restart_V[k]!;
  }

  /** The bulk of shelf k is empty: its DC stage stops until it is full. */
  empty(k: number, bulk_V: number): number {
    this.stop(k, 'empty');
    this.log.note(this.stages.names[k]!, 'dc-stop', `bulk at ${bulk_V.toFixed(1)} V, DC stage stops`);
    return Number.POSITIVE_INFINITY;
  }

  /** Shelf k stands with an empty bulk and may start: does so when it is full. Returns the kick. */
  refill(k: number, tick: number): number {
    return this.phase[k] === 'empty' && this.isFed(k) ? this.start(k, tick, '') : 0;
  }

  /** Shelf k stops for good at `tick`. `draws_A`: current it takes from the bus from then on. */
  takeOut(k: number, tick: number, why: string, draws_A = 0): void {
    this.stop(k, 'out');
    this.why[k] = why;
    this.lost[k] = tick;
    this.stages.rest_A[k] = -draws_A;
    this.reversed[k] = 0;
  }

  /** What shelf k takes from the bus ends: its fuse has cleared. It stays out. */
  endReverse(k: number): void {
    this.stages.rest_A[k] = 0;
    this.pending = true;
  }

  /** Shelf k joins: one that stood starts; one that runs does nothing. */
  join(k: number, tick: number): void {
    if (!this.stands(k)) return;
    this.tries[k] = 0;
    this.stages.rest_A[k] = 0;
    this.start(k, tick, 'joins');
  }

  isOut(k: number): boolean {
    return this.phase[k] === 'out';
  }

  /** Shelf k stands, for good or until its next try. */
  stands(k: number): boolean {
    return this.phase[k] === 'out' || this.phase[k] === 'resting';
  }

  /** Every shelf is out and no other output stage holds the bus, nor is one about to. */
  private lookForDeath(tick: number): void {
    for (const phase of this.phase) if (phase !== 'out') return;
    this.pending = true;
    if (this.stages.running.includes(1) || this.isBatteryComing()) {
      this.noStageSince = Number.NaN;
      return;
    }
    if (Number.isNaN(this.noStageSince)) this.noStageSince = tick;
    if (this.dead !== null || (tick - this.noStageSince) * this.tick_s < dead_s) return;
    const last = this.inOrder().at(-1)!;
    const name = this.stages.names[last]!;
    const cause = `the bus collapsed: no output stage is left to hold it${this.outWords()}`;
    this.dead = { tick: this.lost[last]!, last: name, cause };
    this.log.note(name, 'no-source', `no output stage is left to hold the bus; ${name} was the last`);
  }

  /** Shelves that stand, in the order in which they went. */
  private inOrder(): number[] {
    const out = this.phase.flatMap((_, k) => (this.stands(k) ? [k] : []));
    return out.sort((a, b) => this.lost[a]! - this.lost[b]! || a - b);
  }

  /** Which shelves stand, since when and why, to be added to a sentence; empty where none does. */
  outWords(): string {
    const told = this.inOrder().map((k) => {
      const at_s = Number((this.lost[k]! * this.tick_s).toFixed(4));
      return `${this.stages.names[k]} from ${at_s} s (${this.why[k]})`;
    });
    return told.length === 0 ? '' : `; out: ${told.join(', ')}`;
  }
}
