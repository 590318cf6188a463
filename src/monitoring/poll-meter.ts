/**
 * One channel as its device answers for it, at the polls of a schedule, beside its true range. Between the ends of steps a
 * value goes in a straight line; a mean is the integral of that line, begin to end.
 */
import { BeyondMeter, type Bound } from './beyond-meter.ts';
import type { Beyond, Range } from './monitoring.ts';

/** When a device takes its readings, and over which time. */
export interface Schedule {
  readonly first_s: number;
  readonly period_s: number;
  readonly averaging_s: number;
  /** Nothing earlier is compared: the end of the warm-up. */
  readonly from_s: number;
}

export class PollMeter {
  readonly time_s: number[] = [];
  readonly readings: number[] = [];
  private readonly schedule: Schedule;
  private readonly beyond: readonly BeyondMeter[];
  /** Number of the next reading, and of the next mean to begin. */
  private next = 0;
  private nextBegin = 0;
  /** Integrals at the beginnings of means that are not over. */
  private readonly begun: number[] = [];
  private t0 = Number.NaN;
  private v0 = 0;
  private integral = 0;
  private compared_s = 0;
  private low = Number.POSITIVE_INFINITY;
  private high = Number.NEGATIVE_INFINITY;

  constructor(schedule: Schedule, bounds: readonly Bound[]) {
    this.schedule = schedule;
    this.beyond = bounds.map((bound) => new BeyondMeter(bound));
    // A mean that would begin before what is compared is never asked for.
    const { first_s, averaging_s, from_s, period_s } = schedule;
    this.next = Math.max(0, Math.ceil((from_s + averaging_s - first_s) / period_s));
    this.nextBegin = this.next;
  }

  take(t1: number, v1: number): void {
    const { t0, v0, schedule } = this;
    const { from_s } = schedule;
    this.t0 = t1;
    this.v0 = v1;
    if (Number.isNaN(t0)) {
      if (t1 >= from_s) this.see(v1);
      return;
    }
    if (t1 < from_s) return;
    if (t0 < from_s) {
      const at = this.line(t0, v0, t1, v1, from_s);
      this.go(from_s, at, t1, v1);
      this.see(at);
    } else this.go(t0, v0, t1, v1);
    this.see(v1);
  }

  private see(value: number): void {
    if (value < this.low) this.low = value;
    if (value > this.high) this.high = value;
  }

  private line(t0: number, v0: number, t1: number, v1: number, t: number): number {
    return t1 > t0 ? v0 + ((v1 - v0) * (t - t0)) / (t1 - t0) : v1;
  }

  private go(t0: number, v0: number, t1: number, v1: number): void {
    for (const meter of this.beyond) meter.step(t0, v0, t1, v1);
    const { averaging_s } = this.schedule;
    const upTo = (t: number): number => this.integral + 0.5 * (t - t0) * (v0 + this.line(t0, v0, t1, v1, t));
    if (averaging_s > 0)
      for (let t = this.timeOf(this.nextBegin) - averaging_s; t <= t1; ) {
        this.begun.push(upTo(Math.max(t, t0)));
        t = this.timeOf(++this.nextBegin) - averaging_s;
      }
    for (let t = this.timeOf(this.next); t <= t1; t = this.timeOf(++this.next)) {
      const value =
        averaging_s > 0
          ? (upTo(t) - this.begun.shift()!) / averaging_s
          : this.line(t0, v0, t1, v1, Math.max(t, t0));
      this.time_s.push(t);
      this.readings.push(value);
      for (const meter of this.beyond) meter.reading(t, value, averaging_s);
    }
    this.integral = upTo(t1);
    this.compared_s += t1 - t0;
  }

  private timeOf(k: number): number {
    return this.schedule.first_s + k * this.schedule.period_s;
  }

  /** What the readings show. */
  seen(): Range | null {
    const { readings } = this;
    if (readings.length === 0) return null;
    let [min, max, sum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
    for (const value of readings) {
      min = Math.min(min, value);
      max = Math.max(max, value);
      sum += value;
    }
    return { min, max, mean: sum / readings.length };
  }

  /** null: the run ended before what is compared. */
  truth(): Range | null {
    if (!(this.compared_s > 0)) return null;
    return { min: this.low, max: this.high, mean: this.integral / this.compared_s };
  }

  found(): Beyond[] {
    const { period_s, averaging_s } = this.schedule;
    return this.beyond.flatMap((meter) => meter.found(period_s, averaging_s) ?? []);
  }
}
