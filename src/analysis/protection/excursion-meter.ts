/**
 * One current against one curve, both ways in which a breaker counts: the longest stay above each current (magnetic), and the
 * largest RMS over windows of each length (thermal). Which of both comes nearer to the curve is told: the conservative. Between
 * the currents and lengths that are kept the nearest that they allow is told: a share is never below the truth, and of a burst
 * of constant height the truth.
 */
import type { TripCurve } from '../../scenario/scenario.ts';
import type { NearestTrip } from './protection.ts';
import { StaysAbove } from './stays-above.ts';
import { ThermalElement } from './thermal-element.ts';
import { levelsOfCurve, tripTime_s } from './trip-curve.ts';

export class ExcursionMeter {
  private readonly curve: TripCurve;
  private readonly rating_A: number;
  private readonly stays: StaysAbove;
  private readonly thermal: ThermalElement;
  private t0 = Number.NaN;
  private a0 = 0;
  peak_A = 0;

  constructor(curve: TripCurve, rating_A: number, run_s: number) {
    this.curve = curve;
    this.rating_A = rating_A;
    this.stays = new StaysAbove(Float64Array.from(levelsOfCurve(curve), (ratio) => ratio * rating_A));
    this.thermal = new ThermalElement(curve, rating_A, run_s);
  }

  /** The current at `t1`, in either direction; a straight line since the last one. */
  take(t1: number, current_A: number): void {
    const a1 = Math.abs(current_A);
    const { t0, a0 } = this;
    this.t0 = t1;
    this.a0 = a1;
    if (a1 > this.peak_A) this.peak_A = a1;
    const isFirst = Number.isNaN(t0);
    this.stays.take(isFirst ? t1 : t0, isFirst ? a1 : a0, t1, a1);
    if (t1 > t0) this.thermal.take(t0, a0, t1, a1);
  }

  /** The run is over. */
  end(): void {
    this.stays.end(this.t0);
    this.thermal.end(this.t0);
  }

  /** When the run is over; null: never as high as the curve's lowest current. */
  nearest(): NearestTrip | null {
    const { curve, rating_A, peak_A, stays, thermal } = this;
    const above = Array.from(stays.levels, (_, k): NearestTrip => {
      // A stay above a current between this level and the next is no longer than that above this one.
      const current_A = Math.min(peak_A, stays.levels[k + 1] ?? Number.POSITIVE_INFINITY);
      const [length_s, from_s] = [stays.longest_s[k]!, stays.longestFrom_s[k]!];
      const allowed_s = tripTime_s(curve, current_A / rating_A);
      return { counted: 'above', current_A, length_s, allowed_s, used_ratio: length_s / allowed_s, from_s };
    });
    const rms = thermal
      .trips(peak_A)
      .map((trip): NearestTrip => ({ counted: 'rms', ...trip, used_ratio: trip.length_s / trip.allowed_s }));
    return [...above, ...rms].reduce<NearestTrip | null>(
      (most, one) => (one.used_ratio > (most?.used_ratio ?? 0) ? one : most),
      null,
    );
  }

  /** The run ended above the lowest current of the curve, at that moment or by its RMS over the longest window. */
  goesOn(): boolean {
    return this.stays.isAbove || this.thermal.last_A >= this.stays.levels[0]!;
  }
}
