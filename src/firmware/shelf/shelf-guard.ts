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
 * Trips by overload and by a held under-voltage hiccup and latch after their tries; over-voltage latches at once.
 * What is borne for a while and then held, instead of tripped, is the power hold's and the peak allowance's.
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { SpanTrack } from '../../events/span-book.ts';
import type { WhatOf } from '../../events/spans.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import type { ShelfGroup } from '../share/shelf-group.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import { type Dead, DeadBus } from './dead-bus.ts';
import { limitWords, type ShelfLimit, shelfLimit } from './limited-by.ts';
import { LostShelves } from './lost-shelves.ts';
import { Overload } from './overload.ts';
import { PeakAllowance } from './peak-allowance.ts';
import { PowerHold } from './power-hold.ts';
import { ShelfLimits } from './shelf-limits.ts';
import { VoltageTrips } from './voltage-trips.ts';

export type ShelfPhase = 'on' | 'starting' | 'empty' | 'resting' | 'out';

/** Current into a shelf, over rated, that counts as reversed. */
const reversed_ratio = 0.01;

/** What takes a shelf out from outside, and how a collapse tells of it. */
const takenOut = {
  'taken out': 'tripped',
  'no module': 'no module left',
  failed: 'failed with its blocking element shorted',
} as const satisfies Partial<Record<WhatOf<'out'>, string>>;

export type TakenOut = keyof typeof takenOut;

export class ShelfGuard implements Watcher {
  readonly name = 'shelf guard';
  readonly phase: ShelfPhase[];
  /** Trips of each shelf since it last ran long enough to forget them. */
  readonly tries: Float64Array;
  readonly limits: ShelfLimits;
  /** Something is counted or waited for. */
  private pending = false;
  private readonly shelves: readonly ShelfValues[];
  private readonly overload: readonly Overload[];
  private readonly powerHold: PowerHold;
  private readonly peak: PeakAllowance;
  private readonly voltage: VoltageTrips;
  private readonly lost: LostShelves;
  private readonly bus: DeadBus;
  private readonly counting: readonly SpanTrack[];
  private readonly since: Float64Array;
  private readonly reversed: Uint8Array;
  /** Current over rated from which on a shelf is watched. */
  private readonly leastCurrent: Float64Array;
  private readonly lowest_V: number;
  private readonly period_s: number;
  private readonly site: Site;
  private readonly sharing: ShelfGroup;

  /**
   * `sharing`: is told which shelves are in soft start.
   * `isBatteryComing`: a battery shelf is about to carry.
   */
  constructor(
    site: Site,
    shelves: readonly ShelfValues[],
    sharing: ShelfGroup,
    isBatteryComing: () => boolean,
  ) {
    const { log, tick_s } = site;
    const { names } = site.shelves;
    const n = shelves.length;
    const zeros = (): Float64Array => new Float64Array(n);
    this.site = site;
    this.shelves = shelves;
    this.period_s = site.supervision * tick_s;
    this.limits = new ShelfLimits(site, shelves);
    this.sharing = sharing;
    this.phase = shelves.map(() => 'on');
    this.tries = zeros();
    this.overload = shelves.map((s) => new Overload(s));
    this.powerHold = new PowerHold(site, this.limits);
    this.peak = new PeakAllowance(site, this.limits);
    this.voltage = new VoltageTrips(shelves, this.period_s);
    this.lost = new LostShelves(names, tick_s);
    this.bus = new DeadBus(site, this.lost, isBatteryComing);
    this.counting = names.map((name) => log.spans.track('counting', name, ''));
    this.since = zeros();
    this.reversed = new Uint8Array(n);
    this.leastCurrent = Float64Array.from(shelves, (s, k) =>
      Math.min(
        this.overload[k]!.least,
        this.limits.isPeak[k] ? s.current_limit_ratio : Number.POSITIVE_INFINITY,
      ),
    );
    this.lowest_V = this.voltage.low_V.reduce((a, b) => Math.max(a, b), 0);
  }

  /** Something at a shelf must be looked at, now or at another moment. Asked at every step. */
  private asks(at?: Moment): boolean {
    const { leastCurrent, voltage, powerHold, limits, reversed } = this;
    const { shelves } = this.site;
    const { high_V } = voltage;
    const { isAny } = powerHold;
    for (let k = 0; k < leastCurrent.length; k++) {
      const i = shelves.current_A(k, at);
      const rated = shelves.rated_A(k);
      if (!shelves.isRunning(k)) {
        if (i < -reversed_ratio * rated && reversed[k] === 0) return true;
        continue;
      }
      if (shelves.isAtLimit(k) || i > leastCurrent[k]! * rated) return true;
      const v = shelves.output_V(k, at);
      if (v > high_V[k]!) return true;
      if (isAny && i * v > powerHold.least[k]! * limits.rated_W[k]!) return true;
    }
    return false;
  }

  isBusy(lowest_V: number): boolean {
    return this.pending || lowest_V < this.lowest_V || this.asks();
  }

  isMissed(end: Moment, lowest_V: number): boolean {
    return lowest_V < this.lowest_V || this.asks(end);
  }

  waitFor(waits: Waits): void {
    const { shelves } = this.site;
    const { powerHold, limits } = this;
    waits.nodeBelow(this.lowest_V);
    for (let k = 0; k < this.shelves.length; k++) {
      const rated_A = shelves.rated_A(k);
      if (shelves.isRunning(k)) {
        waits.atLimit(k);
        waits.currentAbove(k, this.leastCurrent[k]! * rated_A);
        waits.outputAbove(k, this.voltage.high_V[k]!);
        if (powerHold.isAny) waits.powerAbove(k, powerHold.least[k]! * limits.rated_W[k]!);
      } else if (this.reversed[k] === 0) waits.currentBelow(k, -reversed_ratio * rated_A);
    }
  }

  run(tick: number): number {
    let kick = 0;
    this.pending = false;
    for (let k = 0; k < this.shelves.length; k++) kick += this.runOne(k, tick);
    this.lookForDeath(tick);
    return kick;
  }

  private runOne(k: number, tick: number): number {
    const { overload } = this;
    const { shelves, log } = this.site;
    const i = shelves.current_A(k);
    const rated = shelves.rated_A(k);
    const phase = this.phase[k]!;
    if (phase === 'resting') {
      this.pending = true;
      overload[k]!.advance(0, this.period_s);
      return tick >= this.since[k]! ? this.start(k, tick, 'tries again') : 0;
    }
    if (i < -reversed_ratio * rated && !this.reversed[k]) {
      this.reversed[k] = 1;
      log.note(shelves.names[k]!, 'current-reversal', `draws ${(-i).toFixed(0)} A from the bus`);
    }
    if (!shelves.isRunning(k)) return 0;
    if (phase === 'starting') this.rise(k, tick);
    const v = shelves.output_V(k);
    const y = i / rated;
    const cause = overload[k]!.advance(y, this.period_s);
    if (cause !== null) return this.trip(k, tick, cause);
    const { voltage, powerHold, peak } = this;
    const at = (): string => `${v.toFixed(1)} V at its output`;
    if (voltage.isLow(k, v, this.phase[k] === 'on')) return this.trip(k, tick, `under-voltage: ${at()}`);
    if (voltage.isHigh(k, v, y)) return this.latch(k, tick, `over-voltage: ${at()}`);
    powerHold.watch(k, tick, i * v);
    peak.watch(k, y);
    const counts = powerHold.isCounting(k) || peak.isCounting(k) || voltage.isCounting(k);
    const isCounting = counts || overload[k]!.isWarm();
    this.counting[k]!.set(isCounting);
    if (isCounting) this.pending = true;
    return 0;
  }

  /** The soft start goes on. */
  private rise(k: number, tick: number): void {
    const along = (tick - this.since[k]!) / this.site.ticks(this.shelves[k]!.soft_start_s);
    this.pending = true;
    this.limits.soft[k] = along < 1 ? along : 1;
    this.limits.apply(k);
    if (along < 1) return;
    this.phase[k] = 'on';
    this.sharing.starting[k] = 0;
    this.site.log.note(this.site.shelves.names[k]!, 'soft-start', 'soft start ends');
  }

  /** What limits shelf k, at its limit with voltage v at its output. */
  limitOf(k: number, v: number): ShelfLimit {
    return shelfLimit(this.site, k, v, this.phase[k] === 'starting');
  }

  /** That in words, at current i and voltage v; null while its walk-in or soft start does. */
  limitWords(k: number, i: number, v: number): string | null {
    return limitWords(this.site, k, this.limitOf(k, v), i, v, this.limits.derated[k]!);
  }

  /** A trip that may be tried again. */
  private trip(k: number, tick: number, cause: string): number {
    const s = this.shelves[k]!;
    if (tick - this.since[k]! >= this.site.ticks(s.hiccup_forget_s)) this.tries[k] = 0;
    this.tries[k]!++;
    const tries = this.tries[k]!;
    const retries = s.hiccup_retries_count;
    if (tries > retries) {
      return this.latch(k, tick, tries === 1 ? cause : `${cause}; ${retries} tries were not enough`);
    }
    this.stop(k, 'resting', 'resting');
    this.lost.note(k, tick, cause);
    this.since[k] = tick + this.site.ticks(s.hiccup_off_s);
    const again = `tries again in ${s.hiccup_off_s} s (${tries} of ${retries})`;
    this.site.log.note(this.site.shelves.names[k]!, 'shelf-trip', `${cause}; stops, ${again}`);
    return Number.POSITIVE_INFINITY;
  }

  /** A trip for good. */
  private latch(k: number, tick: number, cause: string): number {
    this.stop(k, 'out', 'latched');
    this.lost.note(k, tick, cause);
    this.site.log.note(this.site.shelves.names[k]!, 'shelf-latch', `${cause}; latched off`);
    return Number.POSITIVE_INFINITY;
  }

  private stop(k: number, phase: ShelfPhase, what: WhatOf<'out'> | null): void {
    if (what !== null) this.site.log.becomes('out', this.site.shelves.names[k]!, what);
    this.counting[k]!.end();
    this.site.shelves.run(k, false);
    this.phase[k] = phase;
    this.sharing.starting[k] = 0;
    this.powerHold.clear(k);
    this.voltage.clear(k);
    this.limits.soft[k] = 1;
    this.limits.apply(k);
    this.pending = true;
  }

  /** The DC stage starts, softly where the shelf can; it stays `empty` while AC or bulk are not there. Returns the kick. */
  private start(k: number, tick: number, words: string): number {
    const { intakes, shelves, log } = this.site;
    const name = shelves.names[k]!;
    this.pending = true;
    if (!this.isFed(k)) {
      if (this.phase[k] !== 'empty') log.note(name, 'soft-start', `${words}: waits for its bulk`);
      log.becomes('out', name, 'bulk empty');
      this.phase[k] = 'empty';
      return 0;
    }
    const s = this.shelves[k]!;
    shelves.run(k, true);
    log.ends('out', name);
    this.since[k] = tick;
    const softly = s.soft_start_s > 0;
    this.phase[k] = softly ? 'starting' : 'on';
    this.sharing.starting[k] = softly ? 1 : 0;
    this.limits.soft[k] = softly ? 0 : 1;
    this.limits.apply(k);
    const bulk = `bulk at ${intakes.bulk_V(k).toFixed(1)} V`;
    const soft = softly ? `, softly over ${(1e3 * s.soft_start_s).toFixed(0)} ms` : '';
    log.note(name, 'dc-restart', `${words === '' ? '' : `${words}: `}${bulk}, DC stage starts${soft}`);
    return Number.POSITIVE_INFINITY;
  }

  /** AC is there and the bulk is full enough to start on. */
  private isFed(k: number): boolean {
    const { intakes } = this.site;
    return intakes.hasAc(k) && intakes.bulk_V(k) > intakes.restart_V(k);
  }

  /** The bulk of shelf k is empty: its DC stage stops until it is full. */
  empty(k: number, bulk_V: number): number {
    this.stop(k, 'empty', 'bulk empty');
    this.site.log.note(
      this.site.shelves.names[k]!,
      'dc-stop',
      `bulk at ${bulk_V.toFixed(1)} V, DC stage stops`,
    );
    return Number.POSITIVE_INFINITY;
  }

  /** Shelf k stands with an empty bulk and may start: does so when it is full. Returns the kick. */
  refill(k: number, tick: number): number {
    return this.phase[k] === 'empty' && this.isFed(k) ? this.start(k, tick, '') : 0;
  }

  /** Shelf k stops for good at `tick`. `draws_A`: current it takes from the bus from then on. */
  takeOut(k: number, tick: number, what: TakenOut, draws_A = 0): void {
    // One that is out already stays out for what took it, unless it now fails.
    const goesOn = this.phase[k] === 'out' && what !== 'failed';
    this.stop(k, 'out', goesOn ? null : what);
    this.lost.note(k, tick, takenOut[what]);
    this.site.shelves.commandResting(k, -draws_A);
    this.reversed[k] = 0;
  }

  /** What shelf k takes from the bus ends: its fuse has cleared. It stays out. */
  endReverse(k: number): void {
    this.site.shelves.commandResting(k, 0);
    this.pending = true;
  }

  /** Shelf k joins: one that stood starts; one that runs does nothing. */
  join(k: number, tick: number): void {
    if (!this.stands(k)) return;
    this.tries[k] = 0;
    this.site.shelves.commandResting(k, 0);
    this.start(k, tick, 'joins');
  }

  isOut(k: number): boolean {
    return this.phase[k] === 'out';
  }

  /** Shelf k stands, for good or until its next try. */
  stands(k: number): boolean {
    return this.phase[k] === 'out' || this.phase[k] === 'resting';
  }

  /** Set once nothing holds the bus any more. */
  get dead(): Dead | null {
    return this.bus.dead;
  }

  private lookForDeath(tick: number): void {
    for (const phase of this.phase) if (phase !== 'out') return;
    this.pending = true;
    this.bus.watch(tick, this.standing());
  }

  private standing(): number[] {
    return this.phase.flatMap((_, k) => (this.stands(k) ? [k] : []));
  }

  /** Which shelves stand, since when and why, to be added to a sentence; empty where none does. */
  outWords(): string {
    return this.lost.words(this.standing());
  }
}
