/**
 * The short-term current limit has an allowance: time above the lasting limit spends it, time below gives it back at
 * the rate of its duty. Spent, the lasting limit holds until the allowance is whole.
 */

import type { Site } from '../site.ts';
import { drainOf } from './overload.ts';
import type { ShelfLimits } from './shelf-limits.ts';

export class PeakAllowance {
  private readonly spent_s: Float64Array;
  private readonly period_s: number;
  private readonly limits: ShelfLimits;
  private readonly site: Site;

  constructor(site: Site, limits: ShelfLimits) {
    this.site = site;
    this.limits = limits;
    this.period_s = site.supervision * site.tick_s;
    this.spent_s = new Float64Array(site.shelves.count);
  }

  /** Some of the allowance of shelf k is spent. */
  isCounting(k: number): boolean {
    return this.spent_s[k]! > 0;
  }

  /** Shelf k gives `y` times its rated current at this sample. */
  watch(k: number, y: number): void {
    const { limits } = this;
    const { shelves, log } = this.site;
    const s = limits.shelves[k]!;
    if (!(s.peak_current_limit_ratio > s.current_limit_ratio)) return;
    const above = y > s.current_limit_ratio * (1 + 1e-3);
    this.spent_s[k] = above
      ? this.spent_s[k]! + this.period_s
      : Math.max(0, this.spent_s[k]! - drainOf(s.peak_duty_ratio) * this.period_s);
    const name = shelves.names[k]!;
    if (limits.isPeak[k] && this.spent_s[k]! >= s.peak_time_s - this.period_s / 2) {
      limits.isPeak[k] = 0;
      log.spans.track('at-limit', name, 'allowance').begin();
      limits.apply(k);
      const spent = `short-term allowance of ${(1e3 * s.peak_time_s).toFixed(1)} ms is spent`;
      log.note(name, 'peak-spent', `${spent}: ${(100 * s.current_limit_ratio).toFixed(0)} % from here`);
    } else if (!limits.isPeak[k] && this.spent_s[k] === 0) {
      limits.isPeak[k] = 1;
      log.spans.track('at-limit', name, 'allowance').end();
      limits.apply(k);
      log.note(name, 'peak-back', 'short-term allowance is whole again');
    }
  }
}
