/**
 * Sampled voltage loops of rectifier shelves: what their law (voltage-law.ts) is told, and what comes of its commands. Shelves
 * whose loops have one timing run in one task; each senses its own output, so nothing fails on the way. See voltage-loop.md.
 */
import { Random } from '../../loads/random.ts';
import type { ShelfValues } from '../../scenario/parameters/shelf.ts';
import { cellAt, type Exposed, memoryOf, sizes } from '../exposed.ts';
import type { LawRun, LawWitness } from '../law-run.ts';
import { Converter } from '../signal/converter.ts';
import { type SampleSource, Signal } from '../signal/signal.ts';
import type { Site } from '../site.ts';
import type { SampledTask } from '../task.ts';
import type { LoopGroup } from '../user/user-laws.ts';
import type { UserVoltage } from '../user/user-voltage.ts';
import {
  heldCommand_A,
  runVoltage,
  type VoltageInput,
  type VoltageLaw,
  type VoltageMemory,
} from './voltage-law.ts';
import { voltageLawOf } from './voltage-tuning.ts';

/** What holds a command, in the order of the law's `heldBy`. */
const holds = ['linear', 'slewUp', 'limit', 'slewDown', 'zero'] as const;

export class VoltageLoop implements SampledTask, SampleSource {
  readonly name: string;
  readonly periodPath: string;
  readonly isQuiet = true;
  readonly isInner = true;
  readonly signal: Signal;
  readonly lateBy: (() => number) | null;
  /** Looks on at every run of the law; null where nobody does. */
  witness: LawWitness | null = null;
  /** A law of the user's own in place of the one above. */
  readonly law: UserVoltage | null;
  private readonly site: Site;
  /** Places of its shelves among all. */
  private readonly members: readonly number[];
  /** What its shelves measure their outputs with. */
  private readonly voltage: readonly Converter[];
  private readonly current: readonly Converter[];
  private readonly tuned: VoltageLaw;
  private readonly memory: VoltageMemory;
  private readonly input: VoltageInput;
  private readonly command_A: Float64Array;
  private readonly shown: LawRun;

  /** `members`: places of its shelves among `shelves`, all of one timing. `seed` draws its jitter. */
  constructor(
    site: Site,
    name: string,
    shelves: readonly ShelfValues[],
    members: readonly number[],
    seed: number,
    ownOf: ((group: LoopGroup) => UserVoltage) | null = null,
  ) {
    const own = members.map((k) => shelves[k]!);
    const { loop_period_s, loop_latency_s, loop_jitter_s } = own[0]!;
    const n = members.length;
    const zeros = (): Float64Array => new Float64Array(n);
    this.site = site;
    this.name = name;
    const unit = members.length === shelves.length ? '' : `${site.shelves.names[members[0]!]}.`;
    this.periodPath = `shelves.${unit}loop_period`;
    this.members = members;
    this.tuned = voltageLawOf(own);
    const group = { members, period_s: loop_period_s, latency_s: loop_latency_s, tuned: this.tuned };
    this.law = ownOf === null ? null : ownOf(group);
    this.memory = {
      filter_A: zeros(),
      integral_A: zeros(),
      command_A: zeros(),
      alive_ratio: zeros().fill(1),
      heldBy: new Uint8Array(n),
    };
    this.voltage = own.map((s) => new Converter(s.loop_voltage_bits_count, s.loop_voltage_range_V));
    this.current = own.map((s) => new Converter(s.loop_current_bits_count, s.loop_current_range_A));
    this.signal = new Signal(
      {
        name: 'shelf outputs',
        size: 2 * n,
        period: site.ticks(loop_period_s),
        latency: site.ticks(loop_latency_s),
        travelling: 0,
      },
      this,
    );
    this.input = {
      voltage_V: zeros(),
      current_A: zeros(),
      reference_V: zeros(),
      limit_A: zeros(),
      alive_ratio: zeros(),
      isRunning: new Uint8Array(n),
    };
    this.command_A = zeros();
    const { tuned, memory, input, command_A } = this;
    const units = members.map((k) => site.shelves.names[k]!);
    const timing = { period_s: loop_period_s, latency_s: loop_latency_s, units };
    this.shown = { task: name, timing, law: { law: tuned }, memory, input, command: { command_A } };
    const most = site.ticks(loop_jitter_s);
    const random = new Random(seed);
    this.lateBy = most > 0 ? () => Math.round(random.uniform() * most) : null;
  }

  takeSample(out: Float64Array): void {
    const { members, voltage, current, site } = this;
    const n = members.length;
    for (let at = 0; at < n; at++) {
      out[at] = voltage[at]!.read(site.shelves.output_V(members[at]!));
      out[n + at] = current[at]!.read(site.shelves.current_A(members[at]!));
    }
  }

  expose(): Exposed | null {
    const { members, memory, signal, law } = this;
    const { shelves } = this.site;
    const { voltage_V, current_ratio } = sizes;
    const size = members.map((k) => current_ratio * shelves.rated_A(k));
    const cells = (words: string, column: Float64Array) =>
      members.map((k, at) => cellAt(`${shelves.names[k]} ${words}`, size[at]!, column, at));
    return {
      sampleSizes: Float64Array.from({ length: signal.size }, (_, j) =>
        j < members.length ? voltage_V : size[j - members.length]!,
      ),
      memory:
        law === null
          ? [
              ...cells('voltage integrator', memory.integral_A),
              ...cells('droop filter', memory.filter_A),
              ...cells('last current command', memory.command_A),
            ]
          : memoryOf(law, Math.max(...size)),
      commands: members.map((k, at) => {
        const { target, place } = shelves.currentCommand(k);
        return cellAt(`${shelves.names[k]} current command`, size[at]!, target, place);
      }),
    };
  }

  /** Remembers what holds a settled cabinet: the command that it settled on. */
  settle(): void {
    const { members, memory } = this;
    const { shelves } = this.site;
    members.forEach((k, at) => {
      const i = shelves.command_A(k);
      memory.alive_ratio[at] = shelves.alive_ratio(k);
      memory.command_A[at] = i;
      memory.filter_A[at] = i;
      memory.integral_A[at] = this.tuned.integral_ratio[at]! > 0 ? i : 0;
    });
    this.law?.settle(memory.command_A, memory.alive_ratio);
  }

  run(tick: number): number {
    const { members, tuned, memory, input, command_A, witness, shown, law } = this;
    const { shelves } = this.site;
    this.tell();
    if (law === null) {
      witness?.('voltage', shown, 'before');
      runVoltage(tuned, memory, input, command_A);
      witness?.('voltage', shown, 'after');
    } else this.runOwn(law, tick);
    let kick = 0;
    for (let at = 0; at < members.length; at++) {
      kick += shelves.commandCurrent(members[at]!, command_A[at]!, holds[memory.heldBy[at]!]!);
    }
    return kick;
  }

  /** A law of the user's own asks for a current, which the shelf holds within what it may give. */
  private runOwn(law: UserVoltage, tick: number): void {
    const { tuned, memory, input, command_A, site } = this;
    const asked_A = law.run(tick * site.tick_s, input);
    if (this.members[0] === 0) site.display.show('voltage-loop', law.shown);
    for (let at = 0; at < this.members.length; at++) {
      memory.command_A[at] = heldCommand_A(tuned, memory, input, at, asked_A[at]!);
      command_A[at] = memory.command_A[at]!;
    }
  }

  /** What the law is told. */
  private tell(): void {
    const { members, input, signal } = this;
    const { shelves } = this.site;
    const n = members.length;
    const sample = signal.read();
    for (let at = 0; at < n; at++) {
      const k = members[at]!;
      input.voltage_V[at] = sample[at]!;
      input.current_A[at] = sample[n + at]!;
      input.reference_V[at] = shelves.reference_V(k);
      input.limit_A[at] = shelves.limit_A(k);
      input.alive_ratio[at] = shelves.alive_ratio(k);
      input.isRunning[at] = shelves.isRunning(k) ? 1 : 0;
    }
  }
}
