/**
 * Power beyond the sustained limit is borne for its time and then held to it; the hold lets go 10 ms after the stage
 * has left its limit by itself.
 */

import type { Site } from '../site.ts';
import type { ShelfLimits } from './shelf-limits.ts';

/** A stage is free of its limit when it has not been at it for this long [s]. */
export const freeOfLimit_s = 0.01;

export class PowerHold {
  /** Power over that of the modules alive from which on time counts; Infinity: never. */
  readonly least: Float64Array;
  readonly isAny: boolean;
  private readonly beyond_s: Float64Array;
  private readonly freeAt: Float64Array;
  private readonly freeTicks: number;
  private readonly period_s: number;
  private readonly limits: ShelfLimits;
  private readonly site: Site;

  constructor(site: Site, limits: ShelfLimits) {
    this.site = site;
    this.limits = limits;
    this.freeTicks = site.ticks(freeOfLimit_s);
    this.period_s = site.supervision * site.tick_s;
    const none = Number.POSITIVE_INFINITY;
    this.least = Float64Array.from(limits.shelves, ({ sustained_power_limit_ratio: limit }) =>
      limit > 0 ? limit : none,
    );
    this.isAny = this.least.some(Number.isFinite);
    this.beyond_s = new Float64Array(limits.shelves.length);
    this.freeAt = new Float64Array(limits.shelves.length);
  }

  /** Time is counted or a hold is on. */
  isCounting(k: number): boolean {
    return this.beyond_s[k]! > 0 || this.limits.isHeld[k] === 1;
  }

  /** Shelf k stops: nothing is held and nothing counted. */
  clear(k: number): void {
    this.beyond_s[k] = 0;
    this.limits.isHeld[k] = 0;
  }

  /** Shelf k gives `power_W` at this sample. */
  watch(k: number, tick: number, power_W: number): void {
    const { limits } = this;
    const { shelves, log } = this.site;
    if (this.least[k] === Number.POSITIVE_INFINITY) return;
    if (limits.isHeld[k]) {
      if (shelves.isAtLimit(k)) this.freeAt[k] = tick + this.freeTicks;
      if (tick < this.freeAt[k]!) return;
      this.clear(k);
      limits.apply(k);
      return;
    }
    const s = limits.shelves[k]!;
    const beyond = power_W > this.least[k]! * limits.rated_W[k]!;
    this.beyond_s[k] = beyond ? this.beyond_s[k]! + this.period_s : 0;
    if (!beyond || this.beyond_s[k]! < s.sustained_power_time_s - this.period_s / 2) return;
    limits.isHeld[k] = 1;
    limits.apply(k);
    this.freeAt[k] = tick + this.freeTicks;
    const held = (100 * s.sustained_power_limit_ratio).toFixed(0);
    const above_ms = (1e3 * s.sustained_power_time_s).toFixed(0);
    log.note(
      shelves.names[k]!,
      'limit-on',
      `above ${held} % of its power for ${above_ms} ms: held to ${held} %`,
    );
  }
}
