/**
 * How near a current comes to a curve by its RMS over windows. Between two lengths of window ∫ i² dt is no more than over
 * the longer, and over a length w no more than w times the square of the peak: the share told is the highest that these allow,
 * w over the time of √(∫ i² dt / w). It is never below the truth, and is the truth for a burst of constant height.
 */
import type { TripCurve } from '../../scenario/scenario.ts';
import { RmsWindow } from './rms-window.ts';
import { tripTime_s } from './trip-curve.ts';

/** A window over the next shorter one. */
const longer_ratio = 1.04;

/** Shortest window, over the shortest time of the curve: what is shorter is told by its peak. */
const shortest_ratio = 0.25;

/** So much of a curve's time one RMS over a length takes. */
export interface ThermalTrip {
  readonly current_A: number;
  readonly length_s: number;
  readonly allowed_s: number;
  readonly from_s: number;
}

export class ThermalElement {
  private readonly curve: TripCurve;
  private readonly rating_A: number;
  private readonly lengths: readonly number[];
  private windows: readonly RmsWindow[] = [];
  private square_A2s = 0;

  /** Windows are no longer than the run, nor than the curve's longest time. */
  constructor(curve: TripCurve, rating_A: number, run_s: number) {
    this.curve = curve;
    this.rating_A = rating_A;
    const most_s = Math.min(run_s, curve.times_s[0]!);
    const first_s = Math.min(most_s, shortest_ratio * curve.times_s.at(-1)!);
    const lengths: number[] = [];
    for (let length_s = first_s; length_s < most_s; length_s *= longer_ratio) lengths.push(length_s);
    this.lengths = [...lengths, most_s];
  }

  /** The current goes in a straight line from one moment to the next. */
  take(t0: number, a0: number, t1: number, a1: number): void {
    if (this.windows.length === 0) this.windows = this.lengths.map((length_s) => new RmsWindow(length_s, t0));
    const { windows } = this;
    for (let k = 0; k < windows.length; k++) {
      const window = windows[k]!;
      while (window.next_s <= t1) {
        const at = window.next_s;
        const a = a0 + ((a1 - a0) * (at - t0)) / (t1 - t0);
        window.end(at, this.square_A2s + square(t0, a0, at, a));
      }
    }
    this.square_A2s += square(t0, a0, t1, a1);
  }

  /** The run is over. */
  end(at_s: number): void {
    for (const window of this.windows) window.end(at_s, this.square_A2s);
  }

  /** The nearest of every length between two windows, where the bounds meet or the curve has a point. */
  trips(peak_A: number): ThermalTrip[] {
    const { curve, rating_A, windows } = this;
    return windows.flatMap(({ length_s, most_A2s, mostFrom_s }, k) => {
      if (!(most_A2s > 0)) return [];
      const shorter_s = windows[k - 1]?.length_s ?? 0;
      const within = (s: number): number => Math.min(length_s, Math.max(shorter_s, s));
      const flat_s = within(most_A2s / (peak_A * peak_A));
      const bends = curve.ratios.map((ratio) => within(most_A2s / (ratio * rating_A) ** 2));
      return [...new Set([flat_s, length_s, ...bends])].map((s) => {
        const current_A = Math.min(peak_A, Math.sqrt(most_A2s / s));
        const allowed_s = tripTime_s(curve, current_A / rating_A);
        return { current_A, length_s: s, allowed_s, from_s: mostFrom_s };
      });
    });
  }

  /** RMS over the longest window, when the run is over [A]. */
  get last_A(): number {
    const longest = this.windows.at(-1);
    return longest === undefined ? 0 : Math.sqrt(longest.last_A2s / longest.length_s);
  }
}

/** ∫ i² dt along a straight line. */
function square(t0: number, a0: number, t1: number, a1: number): number {
  return ((t1 - t0) * (a0 * a0 + a0 * a1 + a1 * a1)) / 3;
}
