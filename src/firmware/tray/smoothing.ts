/**
 * Tray smoothing: the trays carry what the load has and the smoothed load has not, so that the shelves see a
 * first-order lag of the load; with a state-of-charge loop beside it.
 *
 * Every T_ts, with all samples T_m old (s source powers, q tray powers through the same filter):
 *   P_hat = s + q                         P, w: see reference.ts
 *   P_soc = clamp((E* − E)/τ_soc + z, ±P_soc,max)
 *   z ← z + (T_ts/T_i)(E* − E)/τ_soc      while P_soc is not clamped
 *   p_cmd = clamp(P/N − P_soc + P_bal, what the tray can do)
 *   P_bal = W (charge − mean charge)/τ_b, which sums to zero: trays even out without the source seeing it
 * Both parts of the estimate must have one age: with the trays' own power taken present and unfiltered against a
 * late shelf signal the group oscillates (`own_power: present` shows it).
 * N counts the trays on line; it, the share of the command and the schedule change at once when one leaves.
 * AC lost: commands 0, task frozen; or, where trays assist, they carry their part of the load until the batteries
 * do. AC back: after a hold time w := P_hat and on it goes. Signal lost: P stands or fades, charge goes on. See
 * smoothing.md.
 */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import { SpanChoice } from '../../events/span-choice.ts';
import type { Firmware } from '../../scenario/scenario.ts';
import { cellAt, type Exposed, memoryOf, sizes } from '../exposed.ts';
import { Listener } from '../signal/listener.ts';
import { Signal } from '../signal/signal.ts';
import type { Site } from '../site.ts';
import type { SampledTask } from '../task.ts';
import type { UserSmoothing } from '../user/user-smoothing.ts';
import {
  isStrained,
  mostIn_W,
  mostOut_W,
  scheduledEnergy_J,
  type TrayLimit,
  trayLimit,
  trayLimits,
} from './charge.ts';
import { Reference } from './reference.ts';
import { SignPause } from './sign-pause.ts';
import { TrayGuard } from './tray-guard.ts';

export class Smoothing implements SampledTask {
  readonly name = 'smoothing';
  readonly signal: Signal;
  /** Memory: what the group carries, and each tray's charge integral [W]. */
  readonly reference: Reference;
  readonly integral_W: Float64Array;
  /** By how much of its window each tray's measured charge is off. */
  readonly chargeShift: Float64Array;
  /** A law of the user's own for the commands; the smoothed load goes on as a measure of what it does. */
  readonly law: UserSmoothing | null;
  private phase: 'smoothing' | 'assisting' | 'frozen' = 'smoothing';
  private resumeAt = Number.POSITIVE_INFINITY;
  private followUntil = 0;
  private deaf = false;
  private readonly tapered: Uint8Array;
  private readonly limits: readonly SpanChoice<'at-limit', TrayLimit>[];
  /** Power that a stuck tray holds [W]; NaN for one that obeys. */
  private readonly stuck_W: Float64Array;
  private readonly pause: SignPause;
  private readonly guard: TrayGuard;
  private readonly listener: Listener;
  readonly values: Firmware['smoothing'];
  private readonly site: Site;
  private readonly trays: TrayPorts;
  private readonly carried: () => boolean;

  /** `carried`: whether battery shelves carry, for trays that assist until then. */
  constructor(
    site: Site,
    values: Firmware['smoothing'],
    carried: () => boolean = () => false,
    law: UserSmoothing | null = null,
  ) {
    this.law = law;
    this.values = values;
    this.site = site;
    this.trays = site.trays;
    this.carried = carried;
    const { trays, sensor, log } = site;
    const n = trays.count;
    this.reference = new Reference(values);
    this.integral_W = new Float64Array(n);
    this.chargeShift = new Float64Array(n);
    this.tapered = new Uint8Array(n);
    this.limits = trays.names.map((name) => new SpanChoice(log.spans, 'at-limit', name, trayLimits));
    this.stuck_W = new Float64Array(n).fill(Number.NaN);
    this.pause = new SignPause(
      trays.ratings.columns.dead_s.map((dead_s) => site.ticks(dead_s)),
      log,
    );
    this.guard = new TrayGuard(site);
    this.signal = new Signal(
      {
        name: 'tray group',
        size: 2 + 2 * n,
        period: site.ticks(values.period_s),
        latency: site.ticks(values.latency_s),
        travelling: 2,
      },
      (out) => {
        out[0] = sensor.sources_W();
        out[1] = sensor.trays_W();
        for (let k = 0; k < n; k++) {
          out[2 + k] = trays.capacitor_V(k);
          out[2 + n + k] = trays.bus_V(k);
        }
      },
    );
    this.listener = new Listener(site, 'smoothing', this.signal, values.age_limit_s);
  }

  /** Smoothed load w [W]. */
  get smoothed_W(): number {
    return this.reference.smoothed_W;
  }

  set smoothed_W(value: number) {
    this.reference.smoothed_W = value;
  }

  expose(): Exposed | null {
    const { trays, law, integral_W } = this;
    if (trays.count === 0) return null;
    const { power_W, voltage_V } = sizes;
    const integrals = trays.names.map((name, k) => cellAt(`${name} charge integral`, power_W, integral_W, k));
    return {
      sampleSizes: Float64Array.from({ length: this.signal.size }, (_, k) => (k < 2 ? power_W : voltage_V)),
      memory: law === null ? [...this.reference.memory(), ...integrals] : memoryOf(law, power_W),
      commands: trays.names.map((name, k) => {
        const { target, place } = trays.powerCommand(k);
        return cellAt(`${name} command`, power_W, target, place);
      }),
    };
  }

  /** Trays on line. */
  get count(): number {
    let n = 0;
    for (let k = 0; k < this.trays.count; k++) if (this.trays.isAlive(k)) n++;
    return n;
  }

  /** The load as the trays estimate it [W]. */
  private estimate(sample: Float64Array): number {
    const own = this.values.own_power === 'matched' ? sample[1]! : this.site.sensor.traysUnfiltered_W();
    return sample[0]! + own;
  }

  run(tick: number): number {
    this.guard.watch(this.trip);
    const n = this.count;
    if (n === 0) return 0;
    const sample = this.signal.read();
    const load = this.estimate(sample);
    if (this.phase === 'assisting' && this.carried()) this.freeze('batteries carry: all trays to zero');
    const resumed = this.phase !== 'smoothing';
    if (resumed) {
      if (tick < this.resumeAt) return this.phase === 'assisting' ? this.assist(load, sample, n) : 0;
      this.goOn(load, sample[0]!);
    }
    const lost = this.listener.isLost();
    if ((this.deaf && !lost) || tick < this.followUntil) this.reference.catchUp(load, sample[0]!);
    this.deaf = lost;
    const total = lost ? this.reference.runDeaf() : this.reference.run(load, sample[0]!);
    if (this.law !== null) return this.runLaw(this.law, tick, sample, resumed);
    const share = total / n;
    const mean = this.values.balance_time_s > 0 && !lost ? this.meanCharge(sample) : Number.NaN;
    let kick = 0;
    for (let k = 0; k < this.trays.count; k++) {
      if (!this.trays.isAlive(k)) continue;
      kick += this.tell(k, this.command(k, share, sample, n, mean), tick);
    }
    return kick;
  }

  /** The user's commands, clipped to what each tray can do. */
  private runLaw(law: UserSmoothing, tick: number, sample: Float64Array, resumed: boolean): number {
    const { trays } = this;
    const u = (k: number): number => sample[2 + k]!;
    const v = (k: number): number => sample[2 + trays.count + k]!;
    const asked = law.run(tick * this.site.tick_s, {
      sources_W: sample[0]!,
      trays_W: sample[1]!,
      energy_J: (k) => this.measured_J(k, u(k)),
      most_out_W: (k) => mostOut_W(trays.ratings, k, u(k), v(k)),
      most_in_W: (k) => mostIn_W(trays.ratings, k, u(k), v(k)),
      online: (k) => trays.isAlive(k),
      resumed,
    });
    let kick = 0;
    for (let k = 0; k < trays.count; k++) {
      if (!trays.isAlive(k)) continue;
      kick += this.tell(k, this.held(k, asked[k]!, u(k), v(k)), tick);
    }
    return kick;
  }

  /** Gives tray k its command, past dead time and what holds it; returns how hard that kicks [W/s]. */
  private tell(k: number, wanted: number, tick: number): number {
    const stuck = this.stuck_W[k]!;
    const command = Number.isNaN(stuck) ? this.pause.pass(k, wanted, tick) : stuck;
    return this.trays.command(k, command);
  }

  /** Energy in tray k's capacitor as it measures it, at voltage u [J]. */
  private measured_J(k: number, u: number): number {
    const { ratings } = this.trays;
    return ratings.energy_J(k, u) + this.chargeShift[k]! * ratings.window_J[k]!;
  }

  /** Mean charge of the trays on line, each by its own window. */
  private meanCharge(sample: Float64Array): number {
    const { trays } = this;
    let held = 0;
    let window = 0;
    for (let k = 0; k < trays.count; k++) {
      if (!trays.isAlive(k)) continue;
      held += this.measured_J(k, sample[2 + k]!) - trays.ratings.lowest_J[k]!;
      window += trays.ratings.window_J[k]!;
    }
    return held / window;
  }

  /** Command of tray k for its share of the smoothing power [W]. */
  private command(k: number, share: number, sample: Float64Array, n: number, mean: number): number {
    const { values, trays } = this;
    const u = sample[2 + k]!;
    const measured = this.measured_J(k, u);
    const wanted = scheduledEnergy_J(values, trays.ratings, k, this.smoothed_W, n);
    const pull = (wanted - measured) / values.charge_time_s;
    const limit = values.charge_power_limit_W;
    let charge = pull + this.integral_W[k]!;
    if (charge > limit) charge = limit;
    else if (charge < -limit) charge = -limit;
    else this.integral_W[k]! += (values.period_s / values.charge_integral_time_s) * pull;
    const band = values.dead_band_ratio * trays.ratings.columns.power_W[k]!;
    const smooth = share > band || share < -band ? share : 0;
    let asked = smooth - charge;
    if (!Number.isNaN(mean)) {
      asked +=
        (measured - trays.ratings.lowest_J[k]! - mean * trays.ratings.window_J[k]!) / values.balance_time_s;
    }
    return this.held(k, asked, u, sample[2 + trays.count + k]!);
  }

  /** What is asked of tray k, held to what it can do at capacitor voltage u and bus voltage v [W]. */
  private held(k: number, asked: number, u: number, v: number): number {
    const { trays } = this;
    const given =
      asked > 0
        ? Math.min(asked, mostOut_W(trays.ratings, k, u, v))
        : Math.max(asked, -mostIn_W(trays.ratings, k, u, v));
    const clipped = given !== asked;
    this.limits[k]!.hold(clipped ? trayLimit(trays.ratings, k, u, v, asked > 0) : null);
    this.noteTaper(k, clipped, asked, given, u);
    return given;
  }

  private noteTaper(k: number, clipped: boolean, asked: number, given: number, u: number): void {
    if (clipped === (this.tapered[k] === 1)) return;
    this.tapered[k] = clipped ? 1 : 0;
    const name = this.trays.names[k]!;
    if (!clipped) {
      this.site.log.note(name, 'limit-off', 'follows its command again');
      return;
    }
    const text = `asked for ${(asked / 1e3).toFixed(1)} kW, can give ${(given / 1e3).toFixed(1)} kW`;
    const strained = asked > 0 && isStrained(this.trays.ratings, k, u);
    this.site.log.note(name, strained ? 'tray-infeasible' : 'tray-full', text);
  }

  /** Trays carry their part of the load. */
  private assist(load: number, sample: Float64Array, n: number): number {
    const share = (this.values.assist_ratio * load) / n;
    this.reference.total_W = share * n;
    let kick = 0;
    for (let k = 0; k < this.trays.count; k++) {
      if (!this.trays.isAlive(k)) continue;
      const wanted = this.held(k, share, sample[2 + k]!, sample[2 + this.trays.count + k]!);
      kick += this.tell(k, wanted, this.site.log.tick);
    }
    return kick;
  }

  /** AC lost, as signalled: all trays to zero and memory frozen, or on to carrying load. */
  stop(): void {
    this.resumeAt = Number.POSITIVE_INFINITY;
    if (this.phase !== 'smoothing') return;
    if (this.values.on_ac_loss === 'assist' && !this.carried()) {
      this.phase = 'assisting';
      const part = (this.values.assist_ratio * 100).toFixed(0);
      this.site.log.note(
        'trays',
        'tray-assist',
        `AC lost: carry ${part} % of the load until the batteries do`,
      );
    } else this.freeze('AC lost: all trays to zero, smoothing frozen');
  }

  private freeze(text: string): void {
    this.phase = 'frozen';
    this.site.log.begins('frozen', 'trays', '');
    for (const limit of this.limits) limit.hold(null);
    for (let k = 0; k < this.trays.count; k++) {
      if (Number.isNaN(this.stuck_W[k]!)) this.trays.command(k, 0);
    }
    this.site.log.note('trays', 'tray-stop', text);
  }

  /** AC good again, as signalled: smoothing resumes after the hold time. */
  resume(tick: number): void {
    if (this.phase === 'smoothing') return;
    this.resumeAt = tick + this.site.ticks(this.values.hold_after_return_s);
  }

  private goOn(load: number, source: number): void {
    if (this.phase === 'assisting') this.reference.catchUp(load, source);
    else this.reference.begin(load, source);
    this.phase = 'smoothing';
    this.site.log.ends('frozen', 'trays');
    const from = this.smoothed_W;
    this.site.log.note('trays', 'tray-start', `smoothing again from ${(from / 1e3).toFixed(1)} kW`);
  }

  /** The load is taken down on purpose: the smoothed load follows it until `tick` instead of smoothing it away. */
  follow(tick: number): void {
    this.followUntil = tick;
  }

  /** A tray leaves: its command and its share go at once. */
  drop(k: number): void {
    if (!this.trays.isAlive(k)) return;
    this.takeOut(k, 'taken out');
    this.site.log.note(this.trays.names[k]!, 'tray-stop', `out; ${this.count} trays left`);
  }

  private takeOut(k: number, what: 'taken out' | 'tripped'): void {
    this.site.log.begins('out', this.trays.names[k]!, what);
    this.limits[k]!.hold(null);
    this.trays.takeOut(k);
    this.stuck_W[k] = Number.NaN;
  }

  private readonly trip = (k: number, why: string): void => {
    this.takeOut(k, 'tripped');
    this.site.log.note(this.trays.names[k]!, 'tray-trip', `stops itself: ${why}; ${this.count} trays left`);
  };

  /** Tray k holds this power whatever it is told [W]; null: it obeys again. */
  stick(k: number, power_W: number | null): void {
    if (!this.trays.isAlive(k)) return;
    this.stuck_W[k] = power_W ?? Number.NaN;
    if (power_W !== null) this.trays.command(k, power_W);
  }
}
