/**
 * Tray smoothing: the trays carry what the load has and the smoothed load has not, so that the shelves see a
 * first-order lag of the load; with a state-of-charge loop beside it.
 *
 * Every T_ts, with all samples T_m old (s source powers, q tray powers through the same filter):
 *   P_hat = s + q                         w ← w + (T_ts/τ_s)(P_hat − w)
 *   P_soc = clamp((E* − E)/τ_soc + z, ±P_soc,max)
 *   z ← z + (T_ts/T_i)(E* − E)/τ_soc      while P_soc is not clamped
 *   p_cmd = clamp((P_hat − w)/N − P_soc, what the tray can do)
 * Both parts of the estimate must have one age: with the trays' own power taken present and unfiltered against a
 * late shelf signal the group oscillates (`own_power: present` shows it).
 * N counts the trays on line; it, the share of the command and the schedule change at once when one leaves.
 * AC lost: commands 0, task frozen. AC back: after a hold time w := P_hat and on it goes.
 */
import type { Sensor } from '../devices/sensor.ts';
import type { Trays } from '../devices/tray.ts';
import type { Log } from '../events/log.ts';
import type { Firmware } from '../scenario/scenario.ts';
import { mostIn_W, mostOut_W, scheduledEnergy_J } from './charge.ts';
import { Signal } from './signal.ts';
import type { Plant, Task } from './task.ts';
import type { UserSmoothing } from './user/user-smoothing.ts';

export class Smoothing implements Task {
  readonly name = 'smoothing';
  readonly signal: Signal;
  /** Memory: smoothed load [W] and each tray's charge integral [W]. */
  smoothed_W = 0;
  readonly integral_W: Float64Array;
  /** A law of the user's own for the commands; the smoothed load goes on as a measure of what it does. */
  readonly law: UserSmoothing | null;
  private frozen = false;
  private resumeAt = Number.POSITIVE_INFINITY;
  private followUntil = 0;
  private readonly tapered: Uint8Array;
  readonly values: Firmware['smoothing'];
  private readonly tick_s: number;
  private readonly trays: Trays;
  private readonly sensor: Sensor;
  private readonly plant: Plant;
  private readonly log: Log;

  constructor(
    values: Firmware['smoothing'],
    tick_s: number,
    trays: Trays,
    sensor: Sensor,
    plant: Plant,
    log: Log,
    law: UserSmoothing | null = null,
  ) {
    this.values = values;
    this.law = law;
    this.tick_s = tick_s;
    this.trays = trays;
    this.sensor = sensor;
    this.plant = plant;
    this.log = log;
    const n = trays.count;
    this.integral_W = new Float64Array(n);
    this.tapered = new Uint8Array(n);
    this.signal = new Signal(
      'tray group',
      2 + 2 * n,
      Math.round(values.period_s / tick_s),
      Math.round(values.latency_s / tick_s),
      (out) => {
        out[0] = plant.x[sensor.offset]!;
        out[1] = plant.x[sensor.offset + 1]!;
        for (let k = 0; k < n; k++) {
          out[2 + k] = plant.x[trays.offset + n + k]!;
          out[2 + n + k] = plant.v[trays.node[k]!]!;
        }
      },
    );
  }

  /** Trays on line. */
  get count(): number {
    let n = 0;
    for (let k = 0; k < this.trays.count; k++) n += this.trays.alive[k]!;
    return n;
  }

  /** The load as the trays estimate it [W]. */
  private estimate(sample: Float64Array): number {
    const own = this.values.own_power === 'matched' ? sample[1]! : this.sensor.trays_W(this.plant.x);
    return sample[0]! + own;
  }

  run(tick: number): number {
    const { values, trays } = this;
    const n = this.count;
    if (n === 0) return 0;
    const sample = this.signal.read();
    const load = this.estimate(sample);
    const resumed = this.frozen;
    if (this.frozen) {
      if (tick < this.resumeAt) return 0;
      this.frozen = false;
      this.smoothed_W = load;
      this.log.note('trays', 'tray-start', `smoothing again from ${(load / 1e3).toFixed(1)} kW`);
    }
    if (tick < this.followUntil) this.smoothed_W = load;
    else this.smoothed_W += (values.period_s / values.time_constant_s) * (load - this.smoothed_W);
    if (this.law !== null) return this.runLaw(this.law, tick, sample, resumed);
    const share = (load - this.smoothed_W) / n;
    let kick = 0;
    for (let k = 0; k < trays.count; k++) {
      if (!trays.alive[k]) continue;
      const command = this.command(k, share, sample[2 + k]!, sample[2 + trays.count + k]!, n);
      kick += Math.abs(command - trays.command_W[k]!) / trays.columns.lag_s[k]!;
      trays.command_W[k] = command;
    }
    return kick;
  }

  /** The user's commands, clipped to what each tray can do. */
  private runLaw(law: UserSmoothing, tick: number, sample: Float64Array, resumed: boolean): number {
    const { trays } = this;
    const u = (k: number): number => sample[2 + k]!;
    const out = (k: number): number => mostOut_W(trays, k, u(k), sample[2 + trays.count + k]!);
    const into = (k: number): number => mostIn_W(trays, k, u(k), sample[2 + trays.count + k]!);
    const asked = law.run(tick * this.tick_s, {
      sources_W: sample[0]!,
      trays_W: sample[1]!,
      energy_J: (k) => trays.energy_J(k, u(k)),
      most_out_W: out,
      most_in_W: into,
      online: (k) => trays.alive[k] === 1,
      resumed,
    });
    let kick = 0;
    for (let k = 0; k < trays.count; k++) {
      if (!trays.alive[k]) continue;
      const wanted = asked[k]!;
      const given = wanted > out(k) ? out(k) : wanted < -into(k) ? -into(k) : wanted;
      this.noteTaper(k, given !== wanted, wanted, given);
      kick += Math.abs(given - trays.command_W[k]!) / trays.columns.lag_s[k]!;
      trays.command_W[k] = given;
    }
    return kick;
  }

  /** Command of tray k for its share of the smoothing power, at capacitor voltage u and bus voltage v [W]. */
  private command(k: number, share: number, u: number, v: number, n: number): number {
    const { values, trays } = this;
    const wanted = scheduledEnergy_J(values, trays, k, this.smoothed_W, n);
    const pull = (wanted - trays.energy_J(k, u)) / values.charge_time_s;
    const limit = values.charge_power_limit_W;
    let charge = pull + this.integral_W[k]!;
    if (charge > limit) charge = limit;
    else if (charge < -limit) charge = -limit;
    else this.integral_W[k]! += (values.period_s / values.charge_integral_time_s) * pull;
    const band = values.dead_band_ratio * trays.columns.power_W[k]!;
    const smooth = share > band || share < -band ? share : 0;
    const asked = smooth - charge;
    const out = mostOut_W(trays, k, u, v);
    const into = mostIn_W(trays, k, u, v);
    const given = asked > out ? out : asked < -into ? -into : asked;
    this.noteTaper(k, given !== asked, asked, given);
    return given;
  }

  private noteTaper(k: number, clipped: boolean, asked: number, given: number): void {
    if (clipped === (this.tapered[k] === 1)) return;
    this.tapered[k] = clipped ? 1 : 0;
    const text = clipped
      ? `asked for ${(asked / 1e3).toFixed(1)} kW, can give ${(given / 1e3).toFixed(1)} kW`
      : 'follows its command again';
    this.log.note(this.trays.names[k]!, clipped ? 'tray-full' : 'limit-off', text);
  }

  /** AC lost, as signalled: all trays to zero, memory frozen. */
  stop(): void {
    if (this.frozen) {
      this.resumeAt = Number.POSITIVE_INFINITY;
      return;
    }
    this.frozen = true;
    this.resumeAt = Number.POSITIVE_INFINITY;
    this.trays.command_W.fill(0);
    this.log.note('trays', 'tray-stop', 'AC lost: all trays to zero, smoothing frozen');
  }

  /** AC good again, as signalled: smoothing resumes after the hold time. */
  resume(tick: number): void {
    if (!this.frozen) return;
    this.resumeAt = tick + Math.round(this.values.hold_after_return_s / this.tick_s);
  }

  /** The load is taken down on purpose: the smoothed load follows it until `tick` instead of smoothing it away. */
  follow(tick: number): void {
    this.followUntil = tick;
  }

  /** A tray leaves: its command and its share go at once. */
  drop(k: number): void {
    this.trays.alive[k] = 0;
    this.trays.command_W[k] = 0;
    this.log.note(this.trays.names[k]!, 'tray-stop', `out; ${this.count} trays left`);
  }
}
