/**
 * Under-voltage guard of the sleds: off when the input stays below V_uv for t_uv; back, with a ramp, when it
 * stays above V_uvr for t_rs.
 */
import type { Sleds } from '../devices/sled.ts';
import type { Log } from '../events/log.ts';
import type { Plant, Watcher } from './task.ts';

/** How far above the cut-off the voltage is watched at every supervision sample [V]. */
const watch_V = 1;

export interface SledGuardColumns {
  readonly cutOff_V: Float64Array;
  readonly restart_V: Float64Array;
  /** Times in ticks. */
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
  /** Sleds that are off or ramping. */
  private pending = 0;
  private readonly sleds: Sleds;
  private readonly plant: Plant;
  private readonly log: Log;

  constructor(columns: SledGuardColumns, sleds: Sleds, plant: Plant, log: Log) {
    this.columns = columns;
    this.sleds = sleds;
    this.plant = plant;
    this.log = log;
    this.since = new Float64Array(sleds.count).fill(Number.NaN);
    this.off = new Uint8Array(sleds.count);
    this.rampFrom = new Float64Array(sleds.count).fill(Number.NaN);
    this.highestCutOff_V = columns.cutOff_V.reduce((a, b) => Math.max(a, b), 0);
  }

  /** Every sled is cut off. */
  isDark(): boolean {
    return this.off.every((o) => o === 1);
  }

  isBusy(lowest_V: number): boolean {
    if (this.pending > 0) return true;
    if (lowest_V >= this.highestCutOff_V + watch_V) return false;
    for (let k = 0; k < this.sleds.count; k++) {
      if (this.plant.v[this.sleds.node[k]!]! < this.columns.cutOff_V[k]! + watch_V) return true;
    }
    return false;
  }

  isMissed(_x1: Float64Array, v1: Float64Array, lowest_V: number): boolean {
    if (lowest_V >= this.highestCutOff_V) return false;
    for (let k = 0; k < this.sleds.count; k++) {
      if (!this.off[k] && v1[this.sleds.node[k]!]! < this.columns.cutOff_V[k]!) return true;
    }
    return false;
  }

  run(tick: number): number {
    const { columns: c, sleds, plant } = this;
    let kick = 0;
    this.pending = 0;
    for (let k = 0; k < sleds.count; k++) {
      const v = plant.v[sleds.node[k]!]!;
      const counts = this.off[k] ? v > c.restart_V[k]! : v < c.cutOff_V[k]!;
      if (!counts) this.since[k] = Number.NaN;
      else if (Number.isNaN(this.since[k]!)) this.since[k] = tick;
      const held = tick - this.since[k]!;
      if (!this.off[k] && held >= c.cutOff[k]!) {
        this.off[k] = 1;
        this.since[k] = Number.NaN;
        this.rampFrom[k] = Number.NaN;
        sleds.allowed[k] = 0;
        this.log.note(sleds.names[k]!, 'sled-cut-off', `off at ${v.toFixed(2)} V`);
        kick = Number.POSITIVE_INFINITY;
      } else if (this.off[k] && held >= c.restart[k]!) {
        this.off[k] = 0;
        this.since[k] = Number.NaN;
        this.rampFrom[k] = tick;
        this.log.note(sleds.names[k]!, 'sled-restart', `on again at ${v.toFixed(2)} V`);
      }
      if (!Number.isNaN(this.rampFrom[k]!)) {
        const along = (tick - this.rampFrom[k]!) / c.ramp[k]!;
        sleds.allowed[k] = along < 1 ? along : 1;
        if (along >= 1) this.rampFrom[k] = Number.NaN;
      }
      if (this.off[k] || !Number.isNaN(this.rampFrom[k]!)) this.pending++;
    }
    return kick;
  }
}
