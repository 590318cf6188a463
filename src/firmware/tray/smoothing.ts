/**
 * Tray smoothing: the trays carry what the load has and the smoothed load has not, so that the shelves see a
 * first-order lag of the load; with a state-of-charge loop beside it.
 *
 * Every T_ts, with all samples T_m old (s source powers, q tray powers through the same filter):
 *   P_hat = s + q                         P, w: see smoothing-law.ts
 *   p_cmd = clamp(P/N − P_soc + P_bal, what the tray can do)      P_soc, P_bal: see charge-law.ts
 * Both parts of the estimate must have one age: with the trays' own power taken present and unfiltered against a
 * late shelf signal the group oscillates (`own_power: present` shows it).
 * N counts the trays on line; it, the share of the command and the schedule change at once when one leaves.
 * AC lost: commands 0, task frozen; or, where trays assist, they carry their part of the load until the batteries
 * do. AC back: after a hold time w := P_hat and on it goes. Signal lost: P stands or fades, charge goes on. See
 * smoothing.md.
 */
import type { TrayPorts } from '../../devices/tray/tray-ports.ts';
import type { Firmware } from '../../scenario/scenario.ts';
import { cellAt, type Exposed, memoryOf, sizes } from '../exposed.ts';
import type { LawRun, LawWitness } from '../law-run.ts';
import { Listener } from '../signal/listener.ts';
import { type SampleSource, Signal } from '../signal/signal.ts';
import type { Site } from '../site.ts';
import type { SampledTask } from '../task.ts';
import type { UserSmoothing } from '../user/user-smoothing.ts';
import { ChargeKeeper } from './charge-keeper.ts';
import { Reference, smoothingLawOf } from './reference.ts';
import {
  beginning,
  beginningLoad_W,
  onLine,
  runSmoothing,
  type SmoothingInput,
  type SmoothingLaw,
} from './smoothing-law.ts';
import { TrayCommands } from './tray-commands.ts';
import { TrayGuard } from './tray-guard.ts';
import { mostIn_W, mostOut_W, within_W } from './tray-reach.ts';
import { sampleSize, sampleTrays, TraySample, travelling } from './tray-sample.ts';

export class Smoothing implements SampledTask, SampleSource {
  readonly name = 'smoothing';
  readonly isQuiet = true;
  readonly periodPath = 'firmware.smoothing.period';
  readonly signal: Signal;
  /** Memory: what the group carries, and what keeps each tray charged. */
  readonly reference: Reference;
  readonly charge: ChargeKeeper;
  readonly commands: TrayCommands;
  /** A law of the user's own for the commands; the smoothed load goes on as a measure of what it does. */
  readonly law: UserSmoothing | null;
  /** Looks on at every run of its laws; null where nobody does. */
  witness: LawWitness | null = null;
  /** What the law of the smoothing is tuned to, is told and asks of each tray [W]. */
  private readonly tuned: SmoothingLaw;
  private readonly input: SmoothingInput;
  private readonly smooth_W: Float64Array;
  private readonly shown: LawRun;
  private phase: 'smoothing' | 'assisting' | 'frozen' = 'smoothing';
  private resumeAt = Number.POSITIVE_INFINITY;
  private followUntil = 0;
  private deaf = false;
  private readonly sample: TraySample;
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
    const { count } = site.trays;
    this.law = law;
    this.values = values;
    this.site = site;
    this.trays = site.trays;
    this.carried = carried;
    this.reference = new Reference(values);
    this.tuned = smoothingLawOf(values, count);
    this.smooth_W = site.loops.column(count);
    this.input = {
      sources_W: 0,
      trays_W: 0,
      begins: beginning.onward,
      isAssisting: false,
      isLost: false,
      isOnLine: site.trays.alive,
      power_limit_W: site.trays.ratings.columns.power_limit_W,
    };
    this.sample = new TraySample(site);
    const { tuned, reference, input, smooth_W, sample } = this;
    const { capacitor_V, bus_V } = sample;
    this.charge = new ChargeKeeper(site, values, {
      smooth_W,
      isOnLine: input.isOnLine,
      capacitor_V,
      bus_V,
    });
    this.shown = { task: this.name, law: { law: tuned }, memory: reference, input, command: { smooth_W } };
    this.commands = new TrayCommands(site);
    this.guard = new TrayGuard(site);
    this.signal = new Signal(
      {
        name: 'tray group',
        size: sampleSize(count),
        period: site.ticks(values.period_s),
        latency: site.ticks(values.latency_s),
        travelling,
      },
      this,
    );
    this.listener = new Listener(site, 'smoothing', this.signal, values.age_limit_s);
  }

  takeSample(out: Float64Array): void {
    sampleTrays(out, this.site);
  }

  /** Smoothed load w [W]. */
  get smoothed_W(): number {
    return this.reference.smoothed_W;
  }

  set smoothed_W(value: number) {
    this.reference.smoothed_W = value;
  }

  expose(): Exposed | null {
    const { trays, law, charge } = this;
    if (trays.count === 0) return null;
    const { power_W, voltage_V } = sizes;
    const integrals = trays.names.map((name, k) =>
      cellAt(`${name} charge integral`, power_W, charge.integral_W, k),
    );
    return {
      sampleSizes: Float64Array.from({ length: this.signal.size }, (_, k) =>
        k < travelling ? power_W : voltage_V,
      ),
      memory: law === null ? [...this.reference.memory(), ...integrals] : memoryOf(law, power_W),
      commands: trays.names.map((name, k) => {
        const { target, place } = trays.powerCommand(k);
        return cellAt(`${name} command`, power_W, target, place);
      }),
    };
  }

  /** Trays on line. */
  get count(): number {
    return onLine(this.input.isOnLine, this.trays.count);
  }

  /** What the law is told of the sample that was read. */
  private tell(tick: number): void {
    const { sample, input, site } = this;
    input.sources_W = sample.sources_W;
    input.trays_W = this.values.own_power === 'matched' ? sample.trays_W : site.sensor.traysUnfiltered_W();
    input.isAssisting = this.phase === 'assisting' && tick < this.resumeAt;
    input.begins = beginning.onward;
    input.isLost = false;
  }

  run(tick: number): number {
    const { sample, input } = this;
    this.guard.watch(this.trip);
    if (this.count === 0) return 0;
    sample.read(this.signal.read());
    if (this.phase === 'assisting' && this.carried()) this.freeze('batteries carry: all trays to zero');
    this.tell(tick);
    const resumed = this.phase !== 'smoothing';
    if (resumed && tick < this.resumeAt) return this.phase === 'assisting' ? this.smooth(tick) : 0;
    if (resumed) this.goOn();
    const lost = this.listener.isLost();
    const follows = (this.deaf && !lost) || tick < this.followUntil;
    if (follows && !resumed) input.begins = beginning.fromHere;
    input.isLost = lost;
    this.deaf = lost;
    if (this.law === null) return this.smooth(tick);
    this.runReference();
    return this.runLaw(this.law, tick, resumed);
  }

  private runReference(): void {
    const { tuned, reference, input, smooth_W, law, shown } = this;
    // Beside a law of the user's own it goes on as a measure alone, and commands nothing.
    const witness = law === null ? this.witness : null;
    witness?.('smoothing', shown, 'before');
    runSmoothing(tuned, reference, input, smooth_W);
    witness?.('smoothing', shown, 'after');
  }

  /** Each tray's share of what the group carries, and what keeps it charged beside it. */
  private smooth(tick: number): number {
    const { commands, sample, charge, input, witness } = this;
    const { isAssisting, isLost } = input;
    this.runReference();
    if (witness === null) {
      const { loops } = this.site;
      const kick = loops.ask(charge, this.smoothed_W, isAssisting, isLost, commands.isStraight);
      if (kick !== -1) return kick;
    } else charge.run(input, this.smoothed_W, witness);
    return commands.ask(charge.command, input.isOnLine, sample, tick);
  }

  /** The user's commands, clipped to what each tray can do. */
  private runLaw(law: UserSmoothing, tick: number, resumed: boolean): number {
    const { trays, sample, charge } = this;
    const { capacitor_V, bus_V } = sample;
    const asked_W = law.run(tick * this.site.tick_s, {
      sources_W: sample.sources_W,
      trays_W: sample.trays_W,
      energy_J: (k) => charge.measured_J(k, capacitor_V[k]!),
      most_out_W: (k) => mostOut_W(trays.ratings, k, capacitor_V[k]!, bus_V[k]!),
      most_in_W: (k) => mostIn_W(trays.ratings, k, capacitor_V[k]!, bus_V[k]!),
      online: (k) => trays.isAlive(k),
      resumed,
    });
    this.site.display.show('smoothing', law.shown);
    const given_W = asked_W.map((asked, k) => within_W(trays.ratings, k, asked, capacitor_V[k]!, bus_V[k]!));
    return this.commands.ask({ asked_W, given_W }, this.input.isOnLine, sample, tick);
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
    this.commands.zero();
    this.site.log.note('trays', 'tray-stop', text);
  }

  /** AC good again, as signalled: smoothing resumes after the hold time. */
  resume(tick: number): void {
    if (this.phase === 'smoothing') return;
    this.resumeAt = tick + this.site.ticks(this.values.hold_after_return_s);
  }

  private goOn(): void {
    const { input, tuned, reference } = this;
    input.begins = this.phase === 'assisting' ? beginning.fromHere : beginning.afresh;
    this.phase = 'smoothing';
    this.site.log.ends('frozen', 'trays');
    const from = beginningLoad_W(tuned, reference, input);
    this.site.log.note('trays', 'tray-start', `smoothing again from ${(from / 1e3).toFixed(1)} kW`);
  }

  /** The load is taken down on purpose: the smoothed load follows it until `tick` instead of smoothing it away. */
  follow(tick: number): void {
    this.followUntil = tick;
  }

  /** A tray leaves: its command and its share go at once. */
  drop(k: number): void {
    if (!this.trays.isAlive(k)) return;
    this.commands.takeOut(k, 'taken out');
    this.site.log.note(this.trays.names[k]!, 'tray-stop', `out; ${this.count} trays left`);
  }

  private readonly trip = (k: number, why: string): void => {
    this.commands.takeOut(k, 'tripped');
    this.site.log.note(this.trays.names[k]!, 'tray-trip', `stops itself: ${why}; ${this.count} trays left`);
  };
}
