/**
 * What a feeder that gives way does to its shelves, at each supervision sample.
 *
 * Low: each shelf on it senses V and counts its brown-out by it (line-level.ts).
 * Collapsed: where no voltage is left at which the line carries what is taken (supply.ts), all shelves on it lose AC by that
 * name at the sample that finds it. How a line falls from there is beyond the model; it is not followed.
 * Back: what it had to carry is gone then, so the line stands at its open-circuit voltage at once. AC counts as back when the
 * line has stood above `brown_in` of every shelf on it for the time after which a loss of AC counts; then walk-in begins, and
 * the shelves may drive it as far again.
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { SpanTrack } from '../../events/span-book.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import { acGone, type WalkIn } from '../shelf/walk-in.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { AcSignal } from './ac-signal.ts';
import type { LineLevel } from './line-level.ts';

interface Feeder {
  readonly name: string;
  readonly shelves: readonly number[];
  /** Highest `brown_out` and `brown_in` of its shelves, of nominal. */
  readonly low_ratio: number;
  readonly back_ratio: number;
  readonly collapse: SpanTrack;
  /** Tick since which the line stands above the second; infinite while it does not. */
  goodSince: number;
}

export class FeederWatch implements Watcher {
  readonly name = 'feeder watch';
  private readonly site: Site;
  private readonly lineLevel: LineLevel;
  private readonly walkIn: WalkIn;
  private readonly acSignal: AcSignal;
  private readonly feeders: readonly Feeder[];

  constructor(
    site: Site,
    shelves: readonly ShelfValues[],
    { lineLevel, walkIn, acSignal }: Readonly<{ lineLevel: LineLevel; walkIn: WalkIn; acSignal: AcSignal }>,
  ) {
    this.site = site;
    this.lineLevel = lineLevel;
    this.walkIn = walkIn;
    this.acSignal = acSignal;
    this.feeders = site.supplies.names.map((name, f) => {
      const on = site.supplies.shelvesOf(f);
      return {
        name,
        shelves: on,
        low_ratio: Math.max(...on.map((k) => shelves[k]!.brown_out_ratio)),
        back_ratio: Math.max(...on.map((k) => shelves[k]!.brown_in_ratio)),
        collapse: site.log.spans.track('collapsed', name, ''),
        goodSince: 0,
      };
    });
  }

  /** A sag or a swell: the open-circuit voltage of feeder `name` over nominal. False where its line is stiff. */
  scale(name: string, ratio: number): boolean {
    const f = this.site.supplies.names.indexOf(name);
    if (f < 0) return false;
    this.site.supplies.scale(f, ratio);
    return true;
  }

  private isGone({ shelves, collapse }: Feeder): boolean {
    return collapse.holds || shelves.some((k) => this.lineLevel.isBrown(k));
  }

  private isLow(f: number, at?: Moment): boolean {
    const { supplies } = this.site;
    return supplies.ratio(f, at) < this.feeders[f]!.low_ratio || supplies.isBeyond(f, at);
  }

  isBusy(): boolean {
    return this.feeders.some((feeder, f) => this.isGone(feeder) || this.isLow(f));
  }

  isMissed(end: Moment): boolean {
    return this.feeders.some((_, f) => this.isLow(f, end));
  }

  waitFor(waits: Waits): void {
    this.feeders.forEach(({ low_ratio }, f) => {
      waits.lineBelow(f, low_ratio * this.site.supplies.nominal_V(f));
    });
  }

  run(tick: number): number {
    let kick = 0;
    this.feeders.forEach((feeder, f) => {
      if (!feeder.collapse.holds && this.site.supplies.isBeyond(f)) {
        this.fall(feeder, f, tick);
        kick = Number.POSITIVE_INFINITY;
        return;
      }
      this.watch(feeder, this.site.supplies.ratio(f), tick);
    });
    return kick;
  }

  private fall(feeder: Feeder, f: number, tick: number): void {
    const { name, shelves, collapse } = feeder;
    const { supplies } = this.site;
    const taken_W = supplies.taken_W(f);
    collapse.begin(supplies.loading(f));
    feeder.goodSince = Number.POSITIVE_INFINITY;
    for (const k of shelves) this.walkIn.lose(k, tick, acGone.collapse);
    this.site.log.note(
      name,
      'supply-collapse',
      `supply collapse: no voltage is left at which it carries ${(taken_W / 1e3).toFixed(2)} kW`,
    );
    this.acSignal.tell(tick, `${name} collapse`, true);
  }

  /** Brown-outs of the shelves, and the line's return. */
  private watch(feeder: Feeder, ratio: number, tick: number): void {
    const { name, shelves, back_ratio, collapse } = feeder;
    if (!(ratio > back_ratio)) feeder.goodSince = Number.POSITIVE_INFINITY;
    else if (feeder.goodSince === Number.POSITIVE_INFINITY) feeder.goodSince = tick;
    const isBack = tick - feeder.goodSince >= this.site.detection;
    for (const k of shelves) if (isBack || !this.lineLevel.isBrown(k)) this.lineLevel.sense(k, ratio, tick);
    if (!collapse.holds || !isBack) return;
    collapse.end();
    this.site.log.note(name, 'supply-back', `line back at ${(100 * ratio).toFixed(0)} %`);
    for (const k of shelves) this.walkIn.restore(k, tick, acGone.collapse);
    this.acSignal.tell(tick, `${name} collapse`, false);
  }
}
