/**
 * A shelf trips by its own output voltage: too low for its time, or too high for its time while it delivers (one that
 * does not deliver is not the one that lifts the bus).
 */
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';

export class VoltageTrips {
  /** Output voltages beyond which time counts [V]. */
  readonly low_V: Float64Array;
  readonly high_V: Float64Array;
  private readonly below_s: Float64Array;
  private readonly above_s: Float64Array;
  private readonly shelves: readonly ShelfValues[];
  private readonly period_s: number;

  constructor(shelves: readonly ShelfValues[], period_s: number) {
    this.shelves = shelves;
    this.period_s = period_s;
    this.low_V = Float64Array.from(shelves, (s) => s.under_voltage_ratio * s.rated_voltage_V);
    this.high_V = Float64Array.from(shelves, (s) =>
      s.over_voltage_ratio > 0 ? s.over_voltage_ratio * s.rated_voltage_V : Number.POSITIVE_INFINITY,
    );
    this.below_s = new Float64Array(shelves.length);
    this.above_s = new Float64Array(shelves.length);
  }

  isCounting(k: number): boolean {
    return this.below_s[k]! > 0 || this.above_s[k]! > 0;
  }

  clear(k: number): void {
    this.below_s[k] = 0;
    this.above_s[k] = 0;
  }

  /** Counts one sample of output voltage; `isOn`: shelf k runs and is not in soft start. */
  isLow(k: number, v: number, isOn: boolean): boolean {
    const below = v < this.low_V[k]! && isOn;
    this.below_s[k] = below ? this.below_s[k]! + this.period_s : 0;
    return below && this.below_s[k]! >= this.shelves[k]!.under_voltage_time_s - this.period_s / 2;
  }

  /** Counts one sample of output voltage at `y` times rated current. */
  isHigh(k: number, v: number, y: number): boolean {
    const s = this.shelves[k]!;
    const above = v > this.high_V[k]! && y > s.over_voltage_current_ratio;
    this.above_s[k] = above ? this.above_s[k]! + this.period_s : 0;
    return above && this.above_s[k]! >= s.over_voltage_time_s - this.period_s / 2;
  }
}
