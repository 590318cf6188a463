/**
 * One current against one curve, both ways in which a breaker counts: the longest stay above each of some levels (magnetic),
 * and the largest RMS over windows of some lengths (thermal). Which of both comes nearer to the curve is told: the conservative.
 * A stay's RMS is at least its level, so that a current of constant height meets the curve's own time both ways.
 */
import type { TripCurve } from '../../scenario/scenario.ts';
import type { NearestTrip } from './protection.ts';
import { RmsWindow } from './rms-window.ts';
import { levelsOfCurve, tripTime_s } from './trip-curve.ts';

/** A window over the next shorter one. */
const longer_ratio = Math.SQRT2;

/** Shortest window, over the shortest time of the curve. */
const shortest_ratio = 0.25;

export class ExcursionMeter {
  private readonly curve: TripCurve;
  private readonly rating_A: number;
  private readonly ratios: readonly number[];
  private readonly levels: Float64Array;
  private readonly openFrom: Float64Array;
  private readonly longest: Float64Array;
  private readonly longestAt: Float64Array;
  private readonly windows: readonly RmsWindow[];
  private t0 = Number.NaN;
  private a0 = 0;
  peak_A = 0;

  /** Windows are no longer than the run, nor than the curve's longest time. */
  constructor(curve: TripCurve, rating_A: number, run_s: number) {
    this.curve = curve;
    this.rating_A = rating_A;
    this.ratios = levelsOfCurve(curve);
    this.levels = Float64Array.from(this.ratios, (ratio) => ratio * rating_A);
    this.openFrom = new Float64Array(this.levels.length).fill(Number.NaN);
    this.longest = new Float64Array(this.levels.length);
    this.longestAt = new Float64Array(this.levels.length);
    const windows: RmsWindow[] = [];
    const most_s = Math.min(run_s, curve.times_s[0]!);
    const first_s = Math.min(most_s, shortest_ratio * curve.times_s.at(-1)!);
    for (let length_s = first_s; length_s < most_s; length_s *= longer_ratio)
      windows.push(new RmsWindow(length_s));
    windows.push(new RmsWindow(most_s));
    this.windows = windows;
  }

  /** The current at `t1`, in either direction; a straight line since the last one. */
  take(t1: number, current_A: number): void {
    const a1 = Math.abs(current_A);
    const { t0, a0 } = this;
    this.t0 = t1;
    this.a0 = a1;
    if (a1 > this.peak_A) this.peak_A = a1;
    const from = Number.isNaN(t0) ? t1 : t0;
    const b0 = Number.isNaN(t0) ? a1 : a0;
    for (let k = 0; k < this.levels.length; k++) this.stay(k, from, b0, t1, a1);
    if (t1 > from) for (const window of this.windows) window.take(from, b0, t1, a1);
  }

  private stay(k: number, t0: number, a0: number, t1: number, a1: number): void {
    const level = this.levels[k]!;
    const isOpen = !Number.isNaN(this.openFrom[k]!);
    const crossing = (): number => t0 + ((t1 - t0) * (level - a0)) / (a1 - a0);
    if (!isOpen && a1 >= level) this.openFrom[k] = a0 >= level ? t0 : crossing();
    const from = this.openFrom[k]!;
    if (Number.isNaN(from)) return;
    const to = a1 >= level ? t1 : a0 > level ? crossing() : t0;
    if (to - from > this.longest[k]!) {
      this.longest[k] = to - from;
      this.longestAt[k] = from;
    }
    if (a1 < level) this.openFrom[k] = Number.NaN;
  }

  /** null: never as high as the curve's lowest current. */
  nearest(): NearestTrip | null {
    const stays = Array.from(this.levels, (current_A, k) =>
      this.trip('above', current_A, this.ratios[k]!, this.longest[k]!, this.longestAt[k]!),
    );
    const windows = this.windows.map(({ length_s, most_A, mostFrom_s }) =>
      this.trip('rms', most_A, most_A / this.rating_A, length_s, mostFrom_s),
    );
    return [...stays, ...windows].reduce<NearestTrip | null>(
      (most, one) => (one.used_ratio > (most?.used_ratio ?? 0) ? one : most),
      null,
    );
  }

  private trip(
    counted: NearestTrip['counted'],
    current_A: number,
    ratio: number,
    length_s: number,
    from_s: number,
  ): NearestTrip {
    const allowed_s = tripTime_s(this.curve, ratio);
    return { counted, current_A, length_s, allowed_s, used_ratio: length_s / allowed_s, from_s };
  }

  /** The run ended above the lowest current of the curve, at that moment or by its RMS over the longest window. */
  goesOn(): boolean {
    return !Number.isNaN(this.openFrom[0]!) || this.windows.at(-1)!.last_A >= this.levels[0]!;
  }
}
