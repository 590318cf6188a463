/**
 * The short-term current limit has an allowance: time above the lasting limit spends it, time below gives it back at
 * the rate of its duty. Spent, the lasting limit holds until the allowance is whole.
 */
import type { Log } from '../events/log.ts';
import { drainOf } from './overload.ts';
import type { ShelfLimits } from './shelf-limits.ts';

export class PeakAllowance {
  private readonly spent_s: Float64Array;
  private readonly period_s: number;
  private readonly limits: ShelfLimits;
  private readonly names: readonly string[];
  private readonly log: Log;

  constructor(limits: ShelfLimits, names: readonly string[], period_s: number, log: Log) {
    this.limits = limits;
    this.names = names;
    this.period_s = period_s;
    this.log = log;
    this.spent_s = new Float64Array(names.length);
  }

  /** Some of the allowance of shelf k is spent. */
  isCounting(k: number): boolean {
    return this.spent_s[k]! > 0;
  }

  /** Shelf k gives `y` times its rated current at this sample. */
  watch(k: number, y: number): void {
    const { limits } = this;
    const s = limits.shelves[k]!;
    if (!(s.peak_current_limit_ratio > s.current_limit_ratio)) return;
    const above = y > s.current_limit_ratio * (1 + 1e-3);
    this.spent_s[k] = above
      ? this.spent_s[k]! + this.period_s
      : Math.max(0, this.spent_s[k]! - drainOf(s.peak_duty_ratio) * this.period_s);
    const name = this.names[k]!;
    if (limits.isPeak[k] && this.spent_s[k]! >= s.peak_time_s - this.period_s / 2) {
      limits.isPeak[k] = 0;
      this.log.spans.track('at-limit', name, 'allowance').begin();
      limits.apply(k);
      const spent = `short-term allowance of ${(1e3 * s.peak_time_s).toFixed(1)} ms is spent`;
      this.log.note(name, 'peak-spent', `${spent}: ${(100 * s.current_limit_ratio).toFixed(0)} % from here`);
    } else if (!limits.isPeak[k] && this.spent_s[k] === 0) {
      limits.isPeak[k] = 1;
      this.log.spans.track('at-limit', name, 'allowance').end();
      limits.apply(k);
      this.log.note(name, 'peak-back', 'short-term allowance is whole again');
    }
  }
}
