/**
 * A sled that throttles itself on a low input voltage: below V_th for t_th it draws only a share of its demand;
 * V_th + hysteresis for t_rel lets it go again. Fitted where V_th is above 0 and the share below 1.
 *
 * It acts on the sled's own sensor, so that neighbours may throttle at different moments, and it takes the load
 * down before the cut-off takes it away.
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { SledPower } from './sled-power.ts';

/** How far above the threshold the voltage is watched at every supervision sample, over nominal. */
const watch_ratio = 5e-3;

export interface SledThrottleColumns {
  readonly threshold_V: Float64Array;
  readonly hysteresis_V: Float64Array;
  /** Share of the demand that is still served. */
  readonly level: Float64Array;
  /** Times in ticks. */
  readonly debounce: Float64Array;
  readonly release: Float64Array;
}

export class SledThrottle implements Watcher {
  readonly name = 'sled throttle';
  private readonly columns: SledThrottleColumns;
  private readonly highest_V: number;
  private readonly watch_V: number;
  private readonly held: Uint8Array;
  private readonly since: Float64Array;
  private heldCount = 0;
  private readonly site: Site;
  private readonly power: SledPower;

  constructor(site: Site, columns: SledThrottleColumns, power: SledPower) {
    const { sleds } = site;
    this.site = site;
    this.columns = columns;
    this.power = power;
    this.held = new Uint8Array(sleds.count);
    this.since = new Float64Array(sleds.count).fill(Number.NaN);
    this.watch_V = watch_ratio * site.nominal_V;
    this.highest_V = columns.threshold_V.reduce((top, V, k) => (this.isFitted(k) && V > top ? V : top), 0);
  }

  private isFitted(k: number): boolean {
    return this.columns.threshold_V[k]! > 0 && this.columns.level[k]! < 1;
  }

  isBusy(lowest_V: number): boolean {
    return this.heldCount > 0 || lowest_V < this.highest_V + this.watch_V;
  }

  isMissed(end: Moment, lowest_V: number): boolean {
    const { sleds } = this.site;
    if (lowest_V >= this.highest_V) return false;
    for (let k = 0; k < sleds.count; k++) {
      if (this.held[k] || !this.isFitted(k) || !sleds.isPresent(k)) continue;
      if (sleds.input_V(k, end) < this.columns.threshold_V[k]!) return true;
    }
    return false;
  }

  waitFor(waits: Waits): void {
    waits.nodeBelow(this.highest_V + this.watch_V);
  }

  run(tick: number): number {
    const { sleds } = this.site;
    let kick = 0;
    for (let k = 0; k < sleds.count; k++) {
      if (!this.isFitted(k) || !sleds.isPresent(k)) continue;
      const one = this.runOne(k, tick);
      if (one > kick) kick = one;
    }
    return kick;
  }

  private runOne(k: number, tick: number): number {
    const { columns: c, power } = this;
    const { sleds, log } = this.site;
    const v = sleds.input_V(k);
    const counts = this.held[k] ? v > c.threshold_V[k]! + c.hysteresis_V[k]! : v < c.threshold_V[k]!;
    if (!counts) {
      this.since[k] = Number.NaN;
      return 0;
    }
    if (Number.isNaN(this.since[k]!)) this.since[k] = tick;
    if (tick - this.since[k]! < (this.held[k] ? c.release[k]! : c.debounce[k]!)) return 0;
    this.since[k] = Number.NaN;
    this.held[k] = this.held[k] ? 0 : 1;
    this.heldCount += this.held[k] ? 1 : -1;
    log.spans.track('at-limit', sleds.names[k]!, 'throttle').set(this.held[k] === 1);
    power.throttle[k] = this.held[k] ? c.level[k]! : 1;
    const share = `${(c.level[k]! * 100).toFixed(0)} % of its demand`;
    if (this.held[k])
      log.note(sleds.names[k]!, 'sled-throttle', `throttles to ${share} at ${v.toFixed(2)} V`);
    else log.note(sleds.names[k]!, 'sled-release', `full demand again at ${v.toFixed(2)} V`);
    return power.command(k);
  }
}
