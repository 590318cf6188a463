/**
 * Current share between shelves, or between battery shelves while they carry: what its law (share-law.ts) is told, and what
 * comes of its commands.
 *
 * The sample of a unit is y_k = (1 + g_k) i_k/I_r + o_k, T_d old, g and o the error of its sensor. Units that are tripped,
 * clamped, without AC, walking in, starting softly or out of the share are left out of the target and keep their trim;
 * one at its current limit that carries more than the target still comes down, or a set point too high would hold it there.
 * See share.md.
 */
import type { ShareValues } from '../../scenario/parameters/share.ts';
import { cellAt, type Exposed, memoryOf, sizes } from '../exposed.ts';
import type { LawRun, LawWitness } from '../law-run.ts';
import { Listener } from '../signal/listener.ts';
import { type SampleSource, Signal } from '../signal/signal.ts';
import type { Site } from '../site.ts';
import type { LaterPart, SampledTask } from '../task.ts';
import type { UserShare } from '../user/user-share.ts';
import type { ShareGroup } from './share-group.ts';
import {
  beyond,
  clampedTrim_V,
  commonTarget,
  quantised_V,
  runShare,
  type ShareInput,
  type ShareLaw,
  type ShareMemory,
} from './share-law.ts';

/** The common target b, and how it follows each unit: b moves by weights[k]/over for each y_k. */
export interface ShareTarget {
  readonly b: number;
  readonly weights: readonly number[];
  readonly over: number;
}

export class Share implements SampledTask, SampleSource {
  readonly name: string;
  readonly periodPath = 'firmware.share.period';
  readonly isQuiet = true;
  readonly signal: Signal;
  /** What the law is tuned to, remembers, is told and commands. */
  readonly tuned: ShareLaw;
  private readonly memory: ShareMemory;
  private readonly input: ShareInput;
  private readonly command_V: Float64Array;
  private readonly shown: LawRun;
  /** Looks on at every run of the law; null where nobody does. */
  witness: LawWitness | null = null;
  /** Error of each unit's current sensor: gain, as built and shifted, and offset over rated. */
  readonly senseGain: Float64Array;
  readonly senseOffset: Float64Array;
  /** Units that have left the share: droop alone, trim held. */
  readonly out: Uint8Array;
  /** Parts of the task that run behind the rest of it, for units out of step. */
  readonly later: readonly LaterPart[];
  /** A law of the user's own in place of the one above; its trims stand in `trim_V` all the same. */
  readonly law: UserShare | null;
  private readonly site: Site;
  private readonly values: ShareValues;
  private readonly group: ShareGroup;
  private readonly listener: Listener;
  private readonly gain_V_per_s: Float64Array;
  private readonly wasClamped: Uint8Array;
  /** Units that run in step. */
  private readonly inStep: readonly number[];
  private readonly all: readonly number[];

  constructor(site: Site, values: ShareValues, group: ShareGroup, law: UserShare | null = null) {
    this.site = site;
    this.name = group.task;
    this.values = values;
    this.law = law;
    this.group = group;
    const { units } = group;
    const n = units.count;
    this.senseGain = Float64Array.from(group.gain);
    this.senseOffset = Float64Array.from(group.offset);
    this.out = new Uint8Array(n);
    this.wasClamped = new Uint8Array(n);
    this.gain_V_per_s = Float64Array.from(
      { length: n },
      (_, k) =>
        ((units.staticDroop_ohm(k) + values.path_resistance_ohm) * units.rated_A(k)) / values.time_constant_s,
    );
    this.tuned = {
      count: n,
      isHighest: values.mode === 'highest',
      highest_offset_ratio: values.highest_offset_ratio,
      dead_band_ratio: values.dead_band_ratio,
      trim_limit_V: values.trim_limit_V,
      trim_quantum_V: values.trim_quantum_V,
      fadesWhenLost: values.on_lost === 'decay',
      keep_ratio: 1 - values.period_s / values.leak_time_s,
      step_V: this.gain_V_per_s.map((gain) => gain * values.period_s),
    };
    this.memory = { trim_V: new Float64Array(n), isClamped: new Uint8Array(n) };
    this.command_V = new Float64Array(n);
    this.input = {
      current_ratio: new Float64Array(n),
      isDue: new Uint8Array(n),
      isSharing: new Uint8Array(n),
      isAtLimit: new Uint8Array(n),
      isForgotten: new Uint8Array(n),
      isLost: false,
      isStuck: false,
      stuck_ratio: 0,
    };
    const { tuned, memory, input, command_V } = this;
    this.shown = { task: this.name, law: { law: tuned }, memory, input, command: { command_V } };
    this.signal = new Signal(
      {
        name: 'shelf currents',
        size: n,
        period: site.ticks(values.period_s),
        latency: site.ticks(values.latency_s),
      },
      this,
    );
    this.listener = new Listener(site, this.name, this.signal, values.age_limit_s);
    const behind = Array.from(group.behind);
    const behindBy = (ticks: number): number[] => behind.flatMap((b, k) => (b === ticks ? [k] : []));
    this.inStep = behindBy(0);
    this.all = behind.map((_, k) => k);
    const steps = law === null ? [...new Set(behind)] : [];
    this.later = steps
      .filter((ticks) => ticks > 0)
      .map((ticks) => ({ behind: ticks, run: () => this.runOver(behindBy(ticks)) }));
  }

  /** Trim memory of each unit [V]. */
  get trim_V(): Float64Array {
    return this.memory.trim_V;
  }

  /** Trims of a group that forgets them count as held: where a cabinet rests such a group stands still, or has just begun. */
  expose(): Exposed | null {
    const { group, law, trim_V } = this;
    if (group.forgets) return null;
    const { names } = group.units;
    const { voltage_V, current_ratio } = sizes;
    const trims = names.map((name, k) => cellAt(`${name} trim`, voltage_V, trim_V, k));
    return {
      sampleSizes: new Float64Array(this.signal.size).fill(current_ratio),
      memory: law === null ? trims : memoryOf(law, voltage_V),
      commands: names.map((name, k) => {
        const { target, place } = group.units.trimCommand(k);
        return cellAt(`${name} trim command`, voltage_V, target, place);
      }),
    };
  }

  takeSample(out: Float64Array): void {
    const { units } = this.group;
    for (let k = 0; k < out.length; k++) out[k] = this.measured(k, units.current_A(k) / units.rated_A(k));
  }

  /** What the sensor of unit k shows at per-unit current y. */
  measured(k: number, y: number): number {
    return y * (1 + this.senseGain[k]!) + this.senseOffset[k]!;
  }

  /** Could take part in sharing: see the group. */
  isOnLine(k: number): boolean {
    return this.group.isOnLine(k);
  }

  private takesPart(k: number): boolean {
    return this.out[k] === 0 && this.isOnLine(k);
  }

  /** At its current limit, and nothing else keeps it out: it may come down, not up. */
  private mayYield(k: number): boolean {
    return this.out[k] === 0 && this.group.isAtLimit(k);
  }

  /** The common target of the units `on`, at measured per-unit currents y. */
  target(y: Float64Array, on: readonly number[]): ShareTarget {
    const { tuned, input } = this;
    const isSharing = new Uint8Array(y.length);
    for (const k of on) isSharing[k] = 1;
    const b = commonTarget(tuned, { ...input, current_ratio: y, isSharing, isStuck: false });
    if (!tuned.isHighest) return { b, weights: on.map(() => 1), over: on.length };
    const most = on.reduce((top, k) => (y[k]! > y[top]! ? k : top), on[0] ?? 0);
    return { b, weights: on.map((k) => (k === most ? 1 : 0)), over: 1 };
  }

  run(tick: number): number {
    return this.law === null ? this.runOver(this.inStep) : this.runOwn(this.law, tick);
  }

  /** A law of the user's own decides on every unit at once. */
  private runOwn(law: UserShare, tick: number): number {
    const y = this.signal.read();
    this.trim_V.set(law.run(tick * this.site.tick_s, y, (k) => this.takesPart(k)));
    this.site.display.show('share', law.shown);
    for (const k of this.all) this.command_V[k] = quantised_V(this.tuned, this.trim_V[k]!);
    return this.command(this.all);
  }

  /** Runs the task of these units. */
  private runOver(units: readonly number[]): number {
    const { tuned, memory, input, command_V, wasClamped, witness, shown } = this;
    this.tell(units);
    witness?.('share', shown, 'before');
    runShare(tuned, memory, input, command_V);
    witness?.('share', shown, 'after');
    for (const k of units) {
      if (memory.isClamped[k] !== wasClamped[k]) this.noteClamp(k);
      wasClamped[k] = memory.isClamped[k]!;
    }
    return this.command(units);
  }

  /** What the law is told when it is the turn of these units. */
  private tell(units: readonly number[]): void {
    const { input, signal, group, all } = this;
    input.current_ratio = signal.read();
    input.isLost = this.listener.isLost();
    input.isStuck = signal.stuck !== null;
    input.stuck_ratio = signal.stuck ?? 0;
    input.isDue.fill(0);
    for (const k of units) input.isDue[k] = 1;
    for (const k of all) {
      input.isSharing[k] = this.takesPart(k) ? 1 : 0;
      input.isAtLimit[k] = this.mayYield(k) ? 1 : 0;
      input.isForgotten[k] = group.forgets && !group.units.isRunning(k) ? 1 : 0;
    }
  }

  private noteClamp(k: number): void {
    const held = this.memory.isClamped[k] === 1;
    this.site.log.spans.track('at-limit', this.group.units.names[k]!, 'trim').set(held);
    const text = held
      ? `trim at its clamp of ${this.trim_V[k]!.toFixed(2)} V`
      : 'trim free of its clamp again';
    this.site.log.note(this.group.units.names[k]!, held ? 'trim-clamp' : 'limit-off', text);
  }

  /** Hands the commands on to these units. Returns how hard the largest change kicks: V K_p Δu/τ_i [W/s]. */
  private command(units: readonly number[]): number {
    let kick = 0;
    for (const k of units) {
      const slope = this.group.units.commandTrim(k, this.command_V[k]!);
      if (slope > kick) kick = slope;
    }
    return kick;
  }

  /** Trim at rest of unit k at per-unit current y when the target is b [V]: leakage against share. */
  restingTrim_V(k: number, y: number, b: number): number {
    if (this.law !== null) return this.law.restingTrim_V(k, this.measured(k, y), b);
    const { leak_time_s, dead_band_ratio } = this.values;
    const e = b - this.measured(k, y);
    return clampedTrim_V(this.tuned, leak_time_s * this.gain_V_per_s[k]! * beyond(e, dead_band_ratio));
  }
}
