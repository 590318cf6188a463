/**
 * Battery shelves: start, carry, hand back. One machine per shelf, on the supervisor's samples; what follows the
 * hand-back is `recharge.ts`. States and parameters: `handover.md`.
 *
 *   armed → arming            AC told lost, or v below V_start for t_deb; a charging shelf stops charging at once
 *   arming → carrying         after t_start, and what an event adds to it
 *   carrying → handing back   AC good for t_ok and walk-in over: the set point ramps down over t_hb
 *   handing back → carrying   AC told lost again
 *   handing back → waiting    current below 5 % of rated for 200 ms (asleep where nothing charges it)
 *   carrying → empty, cooling, fault   `carry-end.ts`
 * On AC loss the set point is the rectifiers' no-load value, so that both share the load at once; a start by
 * voltage uses the asleep set point. The voltage is sensed at the battery shelf's own node.
 */
import type { Moment } from '../../devices/plant.ts';
import type { Waits } from '../../devices/waits.ts';
import type { HandoverValues } from '../../scenario/parameters/handover.ts';
import type { WalkIn } from '../shelf/walk-in.ts';
import type { AcSignal } from '../signal/ac-signal.ts';
import type { Site } from '../site.ts';
import type { Watcher } from '../task.ts';
import { type BatteryPhase, Phases } from './battery-phase.ts';
import { type CarryColumns, type CarryEnd, carryEnd } from './carry-end.ts';

/** How far above the trigger the voltage is watched at every supervision sample [V]. */
const watch_V = 0.25;

export interface HandoverColumns extends CarryColumns {
  /** Is the shelf charged by the cabinet? */
  readonly charges: readonly boolean[];
  /** Phase at the start of the run. */
  readonly first: readonly BatteryPhase[];
}

export class Handover implements Watcher {
  readonly name = 'hand-over';
  readonly phases: Phases;
  starts = 0;
  /** What events do to a shelf's next start: ticks beyond its start time; not at all. */
  readonly late: Float64Array;
  readonly failed: Uint8Array;
  private readonly lowSince: Float64Array;
  private readonly idleSince: Float64Array;
  private readonly values: HandoverValues;
  private readonly ticks: { readonly [K in 'debounce' | 'start' | 'good' | 'ramp' | 'idle']: number };
  private readonly columns: HandoverColumns;
  private readonly site: Site;
  private readonly ac: AcSignal;
  private readonly walkIn: WalkIn;

  constructor(site: Site, values: HandoverValues, columns: HandoverColumns, ac: AcSignal, walkIn: WalkIn) {
    this.site = site;
    this.values = values;
    this.columns = columns;
    this.ac = ac;
    this.walkIn = walkIn;
    const { batteries } = site;
    const n = batteries.count;
    this.phases = new Phases(columns.first, batteries.names, site.log);
    this.late = new Float64Array(n);
    this.failed = new Uint8Array(n);
    this.lowSince = new Float64Array(n).fill(Number.NaN);
    this.idleSince = new Float64Array(n).fill(Number.NaN);
    this.ticks = {
      debounce: site.ticks(values.debounce_s),
      start: site.ticks(values.start_time_s),
      good: site.ticks(values.return_time_s),
      ramp: site.ticks(values.ramp_s),
      idle: site.ticks(values.idle_time_s),
    };
    for (let k = 0; k < n; k++) batteries.commandSetPoint(k, values.set_point_asleep_V);
  }

  /** Shelf k has nothing to give, or no more than `reserve_ratio` above its least charge. */
  isSpent(k: number, reserve_ratio: number): boolean {
    const z = this.site.packs.charge_ratio(k);
    return this.phases.isSpent(k) || z <= this.columns.chargeMin[k]! + reserve_ratio;
  }

  /** Any shelf carries or hands back. */
  isCarrying(): boolean {
    return this.phases.isServing();
  }

  /** AC has been good for t_ok and no walk-in limits: shelves may hand back, and charge. */
  isSettled(tick: number): boolean {
    return !this.ac.lost && tick - this.ac.goodSince >= this.ticks.good && this.walkIn.isOver();
  }

  isBusy(lowest_V: number): boolean {
    if (this.ac.lost || this.phases.awake > 0) return true;
    const near = this.values.trigger_voltage_V + watch_V;
    return lowest_V < near && this.isAnyArmedBelow(near);
  }

  isMissed(end: Moment, lowest_V: number): boolean {
    const trigger = this.values.trigger_voltage_V;
    return lowest_V < trigger && this.isAnyArmedBelow(trigger, end);
  }

  waitFor(waits: Waits): void {
    const near = this.values.trigger_voltage_V + watch_V;
    const { batteries } = this.site;
    for (let k = 0; k < batteries.count; k++) if (this.phases.isArmed(k)) waits.batteryBelow(k, near);
  }

  private isAnyArmedBelow(level_V: number, at?: Moment): boolean {
    const { batteries } = this.site;
    for (let k = 0; k < batteries.count; k++) {
      if (batteries.output_V(k, at) < level_V && this.phases.isArmed(k)) return true;
    }
    return false;
  }

  run(tick: number): number {
    let kick = 0;
    for (let k = 0; k < this.site.batteries.count; k++) kick += this.runOne(k, tick);
    return kick;
  }

  private runOne(k: number, tick: number): number {
    switch (this.phases.of[k]!) {
      case 'arming':
        return this.arming(k, tick);
      case 'carrying':
        return this.carrying(k, tick);
      case 'handing back':
        return this.handingBack(k, tick);
      default:
        return this.phases.isArmed(k) ? this.armed(k, tick) : 0;
    }
  }

  private armed(k: number, tick: number): number {
    const { values } = this;
    const { batteries, packs, log } = this.site;
    const v = batteries.output_V(k);
    if (!(v < values.trigger_voltage_V)) this.lowSince[k] = Number.NaN;
    else if (Number.isNaN(this.lowSince[k]!)) this.lowSince[k] = tick;
    const low = tick - this.lowSince[k]! >= this.ticks.debounce;
    if (!this.ac.lost && !low) return 0;
    const kick = batteries.resting_A(k) < 0 ? Number.POSITIVE_INFINITY : 0;
    batteries.commandResting(k, 0);
    this.lowSince[k] = Number.NaN;
    const why = this.ac.lost ? 'AC lost' : `bus at ${v.toFixed(2)} V`;
    const z = packs.charge_ratio(k);
    if (this.failed[k]) {
      this.end(k, tick, { phase: 'fault', detail: `told to start (${why}), does not start` });
    } else if (z <= this.columns.chargeMin[k]!) {
      const charge = `${(z * 100).toFixed(1)} % of charge`;
      this.end(k, tick, { phase: 'empty', detail: `told to start (${why}) with ${charge}: nothing to give` });
    } else {
      this.phases.enter(k, 'arming', tick);
      batteries.commandSetPoint(k, this.ac.lost ? values.set_point_on_loss_V : values.set_point_asleep_V);
      log.note(batteries.names[k]!, 'battery-start', `starts: ${why}`);
      this.starts++;
    }
    return kick;
  }

  private arming(k: number, tick: number): number {
    const { batteries, log } = this.site;
    if (this.ac.lost) batteries.commandSetPoint(k, this.values.set_point_on_loss_V);
    if (tick - this.phases.since[k]! < this.ticks.start + this.late[k]!) return 0;
    this.phases.enter(k, 'carrying', tick);
    batteries.run(k, true);
    log.note(batteries.names[k]!, 'battery-carry', `carries from ${batteries.output_V(k).toFixed(2)} V`);
    return Number.POSITIVE_INFINITY;
  }

  private carrying(k: number, tick: number): number {
    const { batteries, packs, log } = this.site;
    const p = packs.power_W(k);
    const end = carryEnd(packs, this.columns, k, p);
    if (end !== null) return this.end(k, tick, end);
    if (this.ac.lost) {
      batteries.commandSetPoint(k, this.values.set_point_on_loss_V);
      return 0;
    }
    if (!this.isSettled(tick)) return 0;
    this.phases.enter(k, 'handing back', tick);
    this.idleSince[k] = Number.NaN;
    log.note(batteries.names[k]!, 'battery-hand-back', `hands back from ${(p * 1e-3).toFixed(1)} kW`);
    return 0;
  }

  private handingBack(k: number, tick: number): number {
    const { values, ticks } = this;
    const { batteries, packs, log } = this.site;
    const p = packs.power_W(k);
    const end = carryEnd(packs, this.columns, k, p);
    if (end !== null) return this.end(k, tick, end);
    if (this.ac.lost) {
      this.phases.enter(k, 'carrying', tick);
      const from = `${(p * 1e-3).toFixed(1)} kW`;
      log.note(batteries.names[k]!, 'battery-carry', `AC lost again: carries on from ${from}`);
      return 0;
    }
    const from = values.set_point_on_loss_V;
    const along = Math.min(1, (tick - this.phases.since[k]!) / ticks.ramp);
    const target = from + along * (values.set_point_asleep_V - from);
    if (target < batteries.setPoint_V(k)) batteries.commandSetPoint(k, target);
    const idle = along >= 1 && batteries.current_A(k) < values.idle_current_ratio * batteries.rated_A(k);
    if (!idle) this.idleSince[k] = Number.NaN;
    else if (Number.isNaN(this.idleSince[k]!)) this.idleSince[k] = tick;
    if (!(tick - this.idleSince[k]! >= ticks.idle)) return 0;
    this.phases.enter(k, this.columns.charges[k] ? 'waiting' : 'asleep', tick);
    batteries.run(k, false);
    log.note(batteries.names[k]!, 'battery-sleep', 'asleep again');
    return Number.POSITIVE_INFINITY;
  }

  /** The shelf gives no more. */
  private end(k: number, tick: number, { phase, detail }: CarryEnd): number {
    const kinds = { empty: 'battery-empty', cooling: 'battery-hot', fault: 'battery-fault' } as const;
    this.phases.enter(k, phase, tick);
    this.site.batteries.run(k, false);
    this.site.log.note(this.site.batteries.names[k]!, kinds[phase], detail);
    return Number.POSITIVE_INFINITY;
  }
}
