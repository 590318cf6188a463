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
import type { UserHandover } from '../user/user-handover.ts';
import { type BatteryPhase, Phases } from './battery-phase.ts';
import type { CarryColumns } from './carry-end.ts';
import { ShelfMoves } from './shelf-moves.ts';

/** How far above the trigger the voltage is watched at every supervision sample, over nominal. */
const watch_ratio = 5e-3;

export interface HandoverColumns extends CarryColumns {
  /** Is the shelf charged by the cabinet? */
  readonly charges: readonly boolean[];
  /** Phase at the start of the run. */
  readonly first: readonly BatteryPhase[];
}

export class Handover implements Watcher {
  readonly name = 'hand-over';
  readonly phases: Phases;
  /** What shelves do when they are told to, and what events do to their next start. */
  readonly moves: ShelfMoves;
  /** A module of the user's own that tells them in place of the machine above. */
  private readonly own: UserHandover | null;
  private readonly lowSince: Float64Array;
  private readonly idleSince: Float64Array;
  private readonly values: HandoverValues;
  private readonly ticks: { readonly [K in 'debounce' | 'good' | 'ramp' | 'idle']: number };
  private readonly columns: HandoverColumns;
  private readonly site: Site;
  private readonly ac: AcSignal;
  private readonly walkIn: WalkIn;

  constructor(
    site: Site,
    values: HandoverValues,
    columns: HandoverColumns,
    ac: AcSignal,
    walkIn: WalkIn,
    own: UserHandover | null = null,
  ) {
    this.site = site;
    this.values = values;
    this.columns = columns;
    this.ac = ac;
    this.walkIn = walkIn;
    const { batteries } = site;
    const n = batteries.count;
    this.phases = new Phases(columns.first, batteries.names, site.log);
    this.moves = new ShelfMoves(site, values, columns, this.phases);
    this.own = own;
    this.lowSince = new Float64Array(n).fill(Number.NaN);
    this.idleSince = new Float64Array(n).fill(Number.NaN);
    this.ticks = {
      debounce: site.ticks(values.debounce_s),
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
    const near = this.near_V();
    return lowest_V < near && this.isAnyArmedBelow(near);
  }

  isMissed(end: Moment, lowest_V: number): boolean {
    const trigger = this.values.trigger_voltage_V;
    return lowest_V < trigger && this.isAnyArmedBelow(trigger, end);
  }

  waitFor(waits: Waits): void {
    const near = this.near_V();
    const { batteries } = this.site;
    for (let k = 0; k < batteries.count; k++) if (this.phases.isArmed(k)) waits.batteryBelow(k, near);
  }

  private near_V(): number {
    return this.values.trigger_voltage_V + watch_ratio * this.site.nominal_V;
  }

  private isAnyArmedBelow(level_V: number, at?: Moment): boolean {
    const { batteries } = this.site;
    for (let k = 0; k < batteries.count; k++) {
      if (batteries.output_V(k, at) < level_V && this.phases.isArmed(k)) return true;
    }
    return false;
  }

  run(tick: number): number {
    const { own } = this;
    const { count } = this.site.batteries;
    const told_V = own === null ? null : this.ask(own, tick);
    let kick = 0;
    for (let k = 0; k < count; k++)
      kick += told_V === null ? this.runOne(k, tick) : this.obey(k, tick, told_V[k]!);
    return kick;
  }

  /** What a module of the user's own tells the shelves: set points [V], 0 or less to sleep. */
  private ask(own: UserHandover, tick: number): Float64Array {
    const { site, phases } = this;
    const { batteries, packs } = site;
    const told = own.run(tick * site.tick_s, {
      voltage_V: (k) => batteries.output_V(k),
      current_A: (k) => batteries.current_A(k),
      charge_ratio: (k) => packs.charge_ratio(k),
      isStarting: (k) => phases.of[k] === 'arming',
      isCarrying: (k) => phases.of[k] === 'carrying',
      isAcLost: this.ac.lost,
      isSettled: this.isSettled(tick),
    });
    site.display.show('hand-over', own.shown);
    return told;
  }

  private obey(k: number, tick: number, set_V: number): number {
    const { moves, phases } = this;
    const { batteries } = this.site;
    const isAwake = phases.of[k] === 'arming' || phases.of[k] === 'carrying';
    if (!isAwake)
      return phases.isArmed(k) && set_V > 0
        ? moves.begin(k, tick, set_V, `told to, at ${set_V.toFixed(2)} V`)
        : 0;
    const end = phases.of[k] === 'carrying' ? moves.endOf(k) : null;
    if (end !== null) return moves.end(k, tick, end);
    if (set_V <= 0) return moves.sleep(k, tick);
    batteries.commandSetPoint(k, set_V);
    return phases.of[k] === 'arming' ? moves.carryWhenStarted(k, tick) : 0;
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
    const v = this.site.batteries.output_V(k);
    if (!(v < values.trigger_voltage_V)) this.lowSince[k] = Number.NaN;
    else if (Number.isNaN(this.lowSince[k]!)) this.lowSince[k] = tick;
    const low = tick - this.lowSince[k]! >= this.ticks.debounce;
    if (!this.ac.lost && !low) return 0;
    this.lowSince[k] = Number.NaN;
    return this.ac.lost
      ? this.moves.begin(k, tick, values.set_point_on_loss_V, 'AC lost')
      : this.moves.begin(k, tick, values.set_point_asleep_V, `bus at ${v.toFixed(2)} V`);
  }

  private arming(k: number, tick: number): number {
    if (this.ac.lost) this.site.batteries.commandSetPoint(k, this.values.set_point_on_loss_V);
    return this.moves.carryWhenStarted(k, tick);
  }

  private carrying(k: number, tick: number): number {
    const { batteries, packs, log } = this.site;
    const p = packs.power_W(k);
    const end = this.moves.endOf(k);
    if (end !== null) return this.moves.end(k, tick, end);
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
    const end = this.moves.endOf(k);
    if (end !== null) return this.moves.end(k, tick, end);
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
    return this.moves.sleep(k, tick);
  }
}
