/**
 * Under-voltage guard of the sleds: off when the input stays below V_uv for t_uv; back, with a ramp, when it
 * stays above V_uvr for t_rs and its own wait (restart-delays.ts). A sled that is switched off or unplugged is
 * held off until it is on the bus again, and then restarts the same way.
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { WhatOf } from '../../events/spans.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import type { SledPower } from './sled-power.ts';

/** What may switch a sled off: its guard, the scenario, a short, the fuse after it. */
export type SledOff = Extract<WhatOf<'out'>, 'cut off' | 'switched off' | 'shorted' | 'fuse cleared'>;

/** How far above the cut-off the voltage is watched at every supervision sample, over nominal. */
const watch_ratio = 0.02;

export interface SledGuardColumns {
  readonly cutOff_V: Float64Array;
  readonly restart_V: Float64Array;
  /** Times in ticks; the restart's holds the sled's own wait. */
  readonly cutOff: Float64Array;
  readonly restart: Float64Array;
  readonly ramp: Float64Array;
}

export class SledGuard implements Watcher {
  readonly name = 'sled guard';
  private readonly columns: SledGuardColumns;
  private readonly since: Float64Array;
  private readonly off: Uint8Array;
  private readonly rampFrom: Float64Array;
  private readonly highestCutOff_V: number;
  private readonly watch_V: number;
  /** Sleds on the bus that are off or ramping. */
  private pending = 0;
  private readonly site: Site;
  private readonly power: SledPower;

  constructor(site: Site, columns: SledGuardColumns, power: SledPower) {
    const { sleds } = site;
    this.site = site;
    this.columns = columns;
    this.power = power;
    this.since = new Float64Array(sleds.count).fill(Number.NaN);
    this.off = new Uint8Array(sleds.count);
    this.rampFrom = new Float64Array(sleds.count).fill(Number.NaN);
    this.watch_V = watch_ratio * site.nominal_V;
    this.highestCutOff_V = columns.cutOff_V.reduce((a, b) => Math.max(a, b), 0);
  }

  /** Every sled is off. */
  isDark(): boolean {
    return this.off.every((o) => o === 1);
  }

  isOff(k: number): boolean {
    return this.off[k] === 1;
  }

  /** Sled k stops at once and waits for its restart from when it is on the bus; `what`: null when it is off already. */
  switchOff(k: number, what: SledOff | null): void {
    if (what !== null) this.site.log.becomes('out', this.site.sleds.names[k]!, what);
    this.off[k] = 1;
    this.since[k] = Number.NaN;
    this.rampFrom[k] = Number.NaN;
    this.power.on[k] = 0;
    this.power.command(k);
  }

  /** Sled k is on the bus: its wait for the restart begins. */
  await(k: number): void {
    if (this.off[k]) this.pending++;
  }

  isBusy(lowest_V: number): boolean {
    const { sleds } = this.site;
    if (this.pending > 0) return true;
    if (lowest_V >= this.highestCutOff_V + this.watch_V) return false;
    for (let k = 0; k < sleds.count; k++) {
      if (!sleds.isPresent(k)) continue;
      if (sleds.input_V(k) < this.columns.cutOff_V[k]! + this.watch_V) return true;
    }
    return false;
  }

  isMissed(end: Moment, lowest_V: number): boolean {
    const { sleds } = this.site;
    if (lowest_V >= this.highestCutOff_V) return false;
    for (let k = 0; k < sleds.count; k++) {
      if (this.off[k] || !sleds.isPresent(k)) continue;
      if (sleds.input_V(k, end) < this.columns.cutOff_V[k]!) return true;
    }
    return false;
  }

  waitFor(waits: Waits): void {
    waits.nodeBelow(this.highestCutOff_V + this.watch_V);
  }

  run(tick: number): number {
    const { sleds } = this.site;
    let kick = 0;
    this.pending = 0;
    for (let k = 0; k < sleds.count; k++) {
      if (!sleds.isPresent(k)) continue;
      const one = this.runOne(k, tick);
      if (one > kick) kick = one;
      if (this.off[k] || !Number.isNaN(this.rampFrom[k]!)) this.pending++;
    }
    return kick;
  }

  private runOne(k: number, tick: number): number {
    const { columns: c, power } = this;
    const { sleds, log } = this.site;
    const v = sleds.input_V(k);
    const counts = this.off[k] ? v > c.restart_V[k]! : v < c.cutOff_V[k]!;
    if (!counts) this.since[k] = Number.NaN;
    else if (Number.isNaN(this.since[k]!)) this.since[k] = tick;
    const held = tick - this.since[k]!;
    if (!this.off[k] && held >= c.cutOff[k]!) {
      this.switchOff(k, 'cut off');
      log.note(sleds.names[k]!, 'sled-cut-off', `off at ${v.toFixed(2)} V`);
      return Number.POSITIVE_INFINITY;
    }
    if (this.off[k] && held >= c.restart[k]!) {
      this.off[k] = 0;
      log.ends('out', sleds.names[k]!);
      this.since[k] = Number.NaN;
      this.rampFrom[k] = tick;
      log.note(sleds.names[k]!, 'sled-restart', `on again at ${v.toFixed(2)} V`);
    }
    if (Number.isNaN(this.rampFrom[k]!)) return 0;
    const along = (tick - this.rampFrom[k]!) / c.ramp[k]!;
    power.on[k] = along < 1 ? along : 1;
    power.command(k);
    if (along >= 1) this.rampFrom[k] = Number.NaN;
    return 0;
  }
}
