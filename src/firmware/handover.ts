/**
 * Battery shelves: start, carry, hand back, sleep. One machine per shelf, on the supervisor's samples.
 *
 *   asleep → arming     AC told lost, or v below V_start for t_deb
 *   arming → carrying   after t_start
 *   carrying → handing back   AC good for t_ok and walk-in over: the set point ramps down over t_hb
 *   handing back → asleep     current below 5 % of rated for 200 ms
 *   any → empty               charge at z_min
 * On AC loss the set point is the rectifiers' no-load value, so that both share the load at once; a start by
 * voltage uses the asleep set point. The voltage is sensed at the battery shelf's own node.
 */
import type { Packs } from '../devices/pack.ts';
import type { Stages } from '../devices/stage.ts';
import type { Log } from '../events/log.ts';
import type { HandoverValues } from '../scenario/parameters/handover.ts';
import type { AcSignal } from './ac-signal.ts';
import type { Plant, Watcher } from './task.ts';
import type { WalkIn } from './walk-in.ts';

type Phase = 'asleep' | 'arming' | 'carrying' | 'handing back' | 'empty';

/** How far above the trigger the voltage is watched at every supervision sample [V]. */
const watch_V = 0.25;

export class Handover implements Watcher {
  readonly name = 'hand-over';
  readonly phase: Phase[];
  starts = 0;
  /** Shelves that are neither asleep nor empty. */
  private awake = 0;
  private readonly since: Float64Array;
  private readonly lowSince: Float64Array;
  private readonly idleSince: Float64Array;
  private readonly values: HandoverValues;
  private readonly ticks: { readonly [K in 'debounce' | 'start' | 'good' | 'ramp' | 'idle']: number };
  private readonly chargeMin: Float64Array;
  private readonly stages: Stages;
  private readonly packs: Packs;
  private readonly ac: AcSignal;
  private readonly walkIn: WalkIn;
  private readonly plant: Plant;
  private readonly log: Log;

  constructor(
    values: HandoverValues,
    tick_s: number,
    chargeMin: Float64Array,
    stages: Stages,
    packs: Packs,
    ac: AcSignal,
    walkIn: WalkIn,
    plant: Plant,
    log: Log,
  ) {
    this.values = values;
    this.chargeMin = chargeMin;
    this.stages = stages;
    this.packs = packs;
    this.ac = ac;
    this.walkIn = walkIn;
    this.plant = plant;
    this.log = log;
    const n = packs.count;
    this.phase = Array.from({ length: n }, () => 'asleep' as Phase);
    this.since = new Float64Array(n);
    this.lowSince = new Float64Array(n).fill(Number.NaN);
    this.idleSince = new Float64Array(n).fill(Number.NaN);
    this.ticks = {
      debounce: Math.round(values.debounce_s / tick_s),
      start: Math.round(values.start_time_s / tick_s),
      good: Math.round(values.return_time_s / tick_s),
      ramp: Math.round(values.ramp_s / tick_s),
      idle: Math.round(values.idle_time_s / tick_s),
    };
    for (let k = 0; k < n; k++) stages.setPoint_V[packs.firstStage + k] = values.set_point_asleep_V;
  }

  private voltage(k: number, v: Float64Array): number {
    return v[this.stages.node[this.packs.firstStage + k]!]!;
  }

  /** Any shelf carries or hands back. */
  isCarrying(): boolean {
    return this.phase.some((p) => p === 'carrying' || p === 'handing back');
  }

  isBusy(lowest_V: number): boolean {
    if (this.ac.lost || this.awake > 0) return true;
    const near = this.values.trigger_voltage_V + watch_V;
    if (lowest_V >= near) return false;
    for (let k = 0; k < this.packs.count; k++) {
      if (this.phase[k] === 'asleep' && this.voltage(k, this.plant.v) < near) return true;
    }
    return false;
  }

  isMissed(_x1: Float64Array, v1: Float64Array, lowest_V: number): boolean {
    if (lowest_V >= this.values.trigger_voltage_V) return false;
    for (let k = 0; k < this.packs.count; k++) {
      if (this.phase[k] === 'asleep' && this.voltage(k, v1) < this.values.trigger_voltage_V) return true;
    }
    return false;
  }

  run(tick: number): number {
    let kick = 0;
    for (let k = 0; k < this.packs.count; k++) kick += this.runOne(k, tick);
    return kick;
  }

  private runOne(k: number, tick: number): number {
    const { values, ticks, stages, packs, plant } = this;
    const stage = packs.firstStage + k;
    const name = packs.names[k]!;
    const v = this.voltage(k, plant.v);
    const i = plant.x[stages.offset + stage]!;
    switch (this.phase[k]!) {
      case 'asleep': {
        if (!(v < values.trigger_voltage_V)) this.lowSince[k] = Number.NaN;
        else if (Number.isNaN(this.lowSince[k]!)) this.lowSince[k] = tick;
        const low = tick - this.lowSince[k]! >= ticks.debounce;
        if (!this.ac.lost && !low) return 0;
        if (plant.x[packs.offset + k]! <= this.chargeMin[k]!) return this.empty(k, name, stage);
        this.enter(k, 'arming', tick);
        stages.setPoint_V[stage] = this.ac.lost ? values.set_point_on_loss_V : values.set_point_asleep_V;
        const why = this.ac.lost ? 'AC lost' : `bus at ${v.toFixed(2)} V`;
        this.log.note(name, 'battery-start', `starts: ${why}`);
        this.starts++;
        return 0;
      }
      case 'arming':
        if (this.ac.lost) stages.setPoint_V[stage] = values.set_point_on_loss_V;
        if (tick - this.since[k]! < ticks.start) return 0;
        this.enter(k, 'carrying', tick);
        stages.running[stage] = 1;
        this.log.note(name, 'battery-carry', `carries from ${v.toFixed(2)} V`);
        return Number.POSITIVE_INFINITY;
      case 'carrying':
        if (plant.x[packs.offset + k]! <= this.chargeMin[k]!) return this.empty(k, name, stage);
        if (this.ac.lost) {
          stages.setPoint_V[stage] = values.set_point_on_loss_V;
          return 0;
        }
        if (tick - this.ac.goodSince < ticks.good || !this.walkIn.isOver()) return 0;
        this.enter(k, 'handing back', tick);
        this.idleSince[k] = Number.NaN;
        this.log.note(name, 'battery-hand-back', `hands back from ${(v * i * 1e-3).toFixed(1)} kW`);
        return 0;
      case 'handing back': {
        if (this.ac.lost) {
          this.enter(k, 'carrying', tick);
          return 0;
        }
        const from = values.set_point_on_loss_V;
        const along = Math.min(1, (tick - this.since[k]!) / ticks.ramp);
        const target = from + along * (values.set_point_asleep_V - from);
        if (target < stages.setPoint_V[stage]!) stages.setPoint_V[stage] = target;
        const idle = along >= 1 && i < values.idle_current_ratio * stages.columns.rated_A[stage]!;
        if (!idle) this.idleSince[k] = Number.NaN;
        else if (Number.isNaN(this.idleSince[k]!)) this.idleSince[k] = tick;
        if (!(tick - this.idleSince[k]! >= ticks.idle)) return 0;
        this.enter(k, 'asleep', tick);
        stages.running[stage] = 0;
        this.lowSince[k] = Number.NaN;
        this.log.note(name, 'battery-sleep', 'asleep again');
        return Number.POSITIVE_INFINITY;
      }
      case 'empty':
        return 0;
    }
  }

  private empty(k: number, name: string, stage: number): number {
    this.enter(k, 'empty', this.since[k]!);
    this.stages.running[stage] = 0;
    this.log.note(name, 'battery-empty', 'charge at its lower end, stops');
    return Number.POSITIVE_INFINITY;
  }

  private enter(k: number, phase: Phase, tick: number): void {
    this.phase[k] = phase;
    this.since[k] = tick;
    this.awake = this.phase.filter((p) => p !== 'asleep' && p !== 'empty').length;
  }
}
