/**
 * Recharge of the battery shelves after an outage, on a slow sample of its own.
 *
 * Every T_ch, with samples T_m old; only while AC is good and no walk-in limits:
 *   empty, cooling → waiting    cooled down, where it was hot
 *   waiting → charging          after a random wait, drawn for each shelf and outage from the scenario's seed
 *   asked  = P_ch × derating(T), held to V_full I_cv/η,  I_cv = (V_full − U)/R0, U = v_p + R0 i_p as sampled
 *   room   ← room + (T_ch/t_ramp)(what `charge-budget.ts` finds − room): trims move power between the feeders all the time
 *   granted = the shelf's part of the room; rises by no more than P_ch T_ch/t_ramp
 *   charging → topping up       the voltage holds it below the rest
 *   topping up → full           I_cv below `charge_end` of the charge current, or nothing more goes in
 * The command is the current of a stage that does not run, I_rest = −granted/v.
 */
import type { SpanTrack } from '../../events/span-book.ts';
import type { HandoverValues } from '../../scenario/parameters/handover.ts';
import type { Exposed } from '../exposed.ts';
import { type SampleSource, Signal } from '../signal/signal.ts';
import type { Site } from '../site.ts';
import type { SampledTask } from '../task.ts';
import type { Phases } from './battery-phase.ts';
import { chargeRoom, type Draw, divide } from './charge-budget.ts';
import {
  type ChargeWindow,
  chargeDerating,
  currentAtFull_A,
  endCurrent_A,
  powerAtFull_W,
} from './charge-limit.ts';
import type { Handover } from './handover.ts';

/** A shelf that stopped hot is used again this far below its highest temperature [K]. */
const cooled_K = 5;
/** What is granted is told when it moves by more than this share of what is asked for. */
const told_ratio = 0.1;
/** Less than this share of what is asked for counts as held back. */
const whole_ratio = 0.98;

export interface RechargeColumns {
  readonly power_W: Float64Array;
  /** Current that ends the charge, over the current of full charge power. */
  readonly end_ratio: Float64Array;
  readonly full_V: Float64Array;
  readonly temperatureMax_degC: Float64Array;
  readonly windows: readonly ChargeWindow[];
  readonly feeders: FeederColumns;
}

export interface FeederColumns {
  /** Feeder of each rectifier shelf. */
  readonly of: Int32Array;
  readonly count: number;
  readonly breaker_A: Float64Array;
}

/** Samples of a battery shelf: charge, voltage behind R0, temperature, bus voltage, power into the bus. */
const perPack = 5;
/** Samples of a rectifier shelf: AC power, output, and rated output at the present voltage while it runs on AC. */
const perShelf = 3;

export class Recharge implements SampledTask, SampleSource {
  readonly name = 'recharge';
  readonly periodPath = 'firmware.handover.charge_period';
  readonly signal: Signal;
  /** Power granted to each shelf [W]. */
  readonly granted_W: Float64Array;
  /** Tick at which each waiting shelf may begin; NaN: not drawn yet. */
  readonly beginAt: Float64Array;
  /** Tick at which each shelf's charge began. */
  private readonly began: Float64Array;
  /** Spans of each shelf: granted less than it asks for. */
  private readonly heldBack: readonly SpanTrack[];
  /** Stands still: while a run looks for the cycle it begins in. */
  held = false;
  /** Smoothed power that charging may take; NaN before the first look. */
  private room_W = Number.NaN;
  private told_W = Number.POSITIVE_INFINITY;
  private readonly values: HandoverValues;
  private readonly site: Site;
  private readonly columns: RechargeColumns;
  private readonly handover: Handover;
  private readonly phases: Phases;
  private readonly draw: (k: number) => number;

  /** `draw(k)`: the next random number of shelf k, uniform in [0, 1). */
  constructor(
    site: Site,
    values: HandoverValues,
    columns: RechargeColumns,
    handover: Handover,
    draw: (k: number) => number,
  ) {
    this.site = site;
    this.values = values;
    this.columns = columns;
    this.handover = handover;
    this.phases = handover.phases;
    this.draw = draw;
    const { batteries, log } = site;
    const n = batteries.count;
    this.granted_W = new Float64Array(n);
    this.beginAt = new Float64Array(n).fill(Number.NaN);
    this.began = new Float64Array(n);
    this.heldBack = batteries.names.map((name) => log.spans.track('at-limit', name, 'charge'));
    this.signal = new Signal(
      {
        name: 'recharge',
        size: perPack * n + perShelf * site.shelves.count,
        period: site.ticks(values.charge_period_s),
        latency: site.ticks(values.charge_latency_s),
      },
      this,
    );
  }

  /** A cabinet rests with its packs as they are: nothing is granted. */
  expose(): Exposed | null {
    return null;
  }

  takeSample(out: Float64Array): void {
    const { batteries, packs, shelves, intakes } = this.site;
    for (let k = 0; k < packs.count; k++) {
      const p = packs.power_W(k);
      out[perPack * k] = packs.charge_ratio(k);
      out[perPack * k + 1] = packs.behind_V(k, p);
      out[perPack * k + 2] = packs.temperature_degC(k);
      out[perPack * k + 3] = batteries.output_V(k);
      out[perPack * k + 4] = p;
    }
    for (let k = 0; k < shelves.count; k++) {
      const bus_V = shelves.output_V(k);
      const at = perPack * packs.count + perShelf * k;
      out[at] = intakes.line_W(k);
      out[at + 1] = bus_V * shelves.current_A(k);
      out[at + 2] = shelves.isRunning(k) && intakes.hasAc(k) ? bus_V * shelves.rated_A(k) : 0;
    }
  }

  /** Is anything left to do? Shelves that carry, and those at rest, need no charge now. */
  private isIdle(): boolean {
    for (let k = 0; k < this.site.packs.count; k++) {
      const phase = this.phases.of[k]!;
      if (this.granted_W[k]! > 0 || phase === 'waiting' || phase === 'empty' || phase === 'cooling')
        return false;
      if (this.phases.isCharging(k)) return false;
    }
    return true;
  }

  run(tick: number): number {
    if (this.held || this.isIdle()) {
      this.room_W = Number.NaN;
      this.told_W = Number.POSITIVE_INFINITY;
      for (const held of this.heldBack) held.end();
      return 0;
    }
    const sample = this.signal.read();
    const { columns } = this;
    const n = this.site.packs.count;
    const settled = this.handover.isSettled(tick);
    const asked: number[] = [];
    const byVoltage: boolean[] = [];
    let wanted = 0;
    for (let k = 0; k < n; k++) {
      if (settled) this.prepare(k, tick, sample);
      const charges = settled && this.phases.isCharging(k);
      const most = charges ? columns.power_W[k]! * this.derating(k, sample) : 0;
      const atFull = charges ? this.powerAtFull_W(k, sample) : 0;
      byVoltage.push(charges && atFull < most);
      asked.push(Math.min(most, atFull));
      wanted += asked[k]!;
    }
    const { charge_budget_W, charge_period_s, charge_ramp_s } = this.values;
    const { room_W, by } = chargeRoom(this.drawOf(sample), charge_budget_W);
    if (Number.isNaN(this.room_W)) this.room_W = room_W;
    this.room_W += Math.min(1, charge_period_s / charge_ramp_s) * (room_W - this.room_W);
    if (wanted > 0) this.tellRoom(wanted, by);
    const parts = divide(this.room_W, asked);
    let kick = 0;
    for (let k = 0; k < n; k++) {
      this.heldBack[k]!.set(parts[k]! < whole_ratio * asked[k]!);
      kick += this.command(k, parts[k]!, sample[perPack * k + 3]!);
      if (this.phases.isCharging(k)) this.advance(k, tick, sample, byVoltage[k]! && parts[k]! >= asked[k]!);
    }
    return kick;
  }

  /** Towards charging: cooled, its wait drawn, its wait over. */
  private prepare(k: number, tick: number, sample: Float64Array): void {
    const { columns, phases, values } = this;
    const { log, packs } = this.site;
    const name = packs.names[k]!;
    if (!(columns.power_W[k]! > 0)) return;
    const phase = phases.of[k]!;
    const cool = sample[perPack * k + 2]! <= columns.temperatureMax_degC[k]! - cooled_K;
    if (phase === 'empty' || (phase === 'cooling' && cool)) {
      phases.enter(k, 'waiting', tick);
      this.beginAt[k] = Number.NaN;
    }
    if (phases.of[k] !== 'waiting') return;
    if (Number.isNaN(this.beginAt[k]!)) {
      const span = values.charge_wait_max_s - values.charge_wait_min_s;
      const wait_s = values.charge_wait_min_s + span * this.draw(k);
      this.beginAt[k] = tick + this.site.ticks(wait_s);
      const charge = `${(sample[perPack * k]! * 100).toFixed(1)} %`;
      log.note(
        name,
        'battery-wait',
        `at ${charge} of charge, waits ${wait_s.toFixed(1)} s before it charges`,
      );
    } else if (tick >= this.beginAt[k]!) {
      this.beginAt[k] = Number.NaN;
      this.began[k] = tick;
      phases.enter(k, 'charging', tick);
      const charge = `${(sample[perPack * k]! * 100).toFixed(1)} %`;
      const most = `${(columns.power_W[k]! / 1e3).toFixed(2)} kW`;
      log.note(name, 'battery-charge', `charges from ${charge} with up to ${most}`);
    }
  }

  private derating(k: number, sample: Float64Array): number {
    return chargeDerating(this.columns.windows[k]!, sample[perPack * k + 2]!);
  }

  /** Power from the bus that holds the packs at their full voltage [W]. */
  private powerAtFull_W(k: number, sample: Float64Array): number {
    const { packs } = this.site;
    const full = this.columns.full_V[k]!;
    const most_A = currentAtFull_A(full, sample[perPack * k + 1]!, packs.resistance_ohm(k));
    return powerAtFull_W(full, most_A, packs.efficiency_ratio(k));
  }

  private drawOf(sample: Float64Array): Draw {
    const { values } = this;
    const { feeders } = this.columns;
    const { packs, intakes } = this.site;
    const n = packs.count;
    let charge_W = 0;
    for (let k = 0; k < n; k++) charge_W += Math.max(0, -sample[perPack * k + 4]!);
    let rated_W = 0;
    let output_W = 0;
    const of = Array.from({ length: feeders.count }, () => ({ allowed_W: 0, drawn_W: 0, rated_W: 0 }));
    for (let k = 0; k < intakes.count; k++) {
      const at = perPack * n + perShelf * k;
      const feeder = of[feeders.of[k]!]!;
      const rated = sample[at + 2]!;
      feeder.drawn_W += sample[at]!;
      if (rated === 0) continue;
      rated_W += rated;
      output_W += sample[at + 1]!;
      feeder.rated_W += rated;
      const line_V = intakes.line_V(k);
      feeder.allowed_W = values.feeder_fill_ratio * line_V * feeders.breaker_A[feeders.of[k]!]!;
    }
    return { charge_W, rated_W, output_W, feeders: of };
  }

  /** Writes the command of shelf k; up in a ramp, down at once. Returns how hard it kicks the bus [W/s]. */
  private command(k: number, part_W: number, v: number): number {
    const { values, columns } = this;
    const { batteries } = this.site;
    const rise = (columns.power_W[k]! * values.charge_period_s) / values.charge_ramp_s;
    const before = this.granted_W[k]!;
    const charging = this.phases.isCharging(k);
    this.granted_W[k] = charging ? Math.min(part_W, before + rise) : 0;
    // A shelf that starts has let go of its charge by itself.
    if (!charging) return 0;
    // The current limit of the charger: below the voltage at which it folds back it asks for no more.
    const lowest_V = batteries.foldBack_V(k);
    batteries.commandResting(k, -this.granted_W[k]! / (v > lowest_V ? v : lowest_V));
    return Math.abs(this.granted_W[k]! - before) / batteries.currentLag_s(k);
  }

  /** Charging to topping up to full. */
  private advance(k: number, tick: number, sample: Float64Array, byVoltage: boolean): void {
    const { phases, columns } = this;
    const { packs, log, tick_s } = this.site;
    const name = packs.names[k]!;
    const z = sample[perPack * k]!;
    const full = columns.full_V[k]!;
    if (phases.of[k] === 'charging' && byVoltage) {
      phases.enter(k, 'topping up', tick);
      const at = `${full.toFixed(2)} V with ${(z * 100).toFixed(1)} % of charge`;
      log.note(name, 'battery-charge', `packs at ${at}: on at constant voltage`);
    }
    const most = currentAtFull_A(full, sample[perPack * k + 1]!, packs.resistance_ohm(k));
    const end = endCurrent_A(columns.end_ratio[k]!, columns.power_W[k]!, packs.efficiency_ratio(k), full);
    if (!(z >= 1) && !(phases.of[k] === 'topping up' && most <= end)) return;
    this.command(k, 0, sample[perPack * k + 3]!);
    phases.enter(k, 'full', tick);
    this.granted_W[k] = 0;
    const took = ((tick - this.began[k]!) * tick_s).toFixed(1);
    log.note(name, 'battery-full', `full at ${(z * 100).toFixed(1)} % after ${took} s of charging`);
  }

  private tellRoom(wanted_W: number, by: string): void {
    const before = this.told_W;
    const heldBack = this.room_W < whole_ratio * wanted_W;
    if (!heldBack && before === Number.POSITIVE_INFINITY) return;
    if (heldBack && Math.abs(this.room_W - before) <= told_ratio * wanted_W) return;
    this.told_W = heldBack ? this.room_W : Number.POSITIVE_INFINITY;
    const kw = (watts: number): string => `${(watts / 1e3).toFixed(2)} kW`;
    const text = heldBack
      ? `${kw(this.room_W)} of ${kw(wanted_W)}, held back by ${by}`
      : `all ${kw(wanted_W)} asked for`;
    this.site.log.note('charging', 'charge-limit', text);
  }
}
