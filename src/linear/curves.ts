/**
 * Frequency responses of the whole sampled cabinet: what a sine put in at one place does at another, at the
 * same frequency, as sine injection would measure it.
 *
 * A sine exp(jωt) moves the plant by X = (s I − A)⁻¹ B, with s = (2j/h) tan(ωh/2) as the trapezoid of the finest
 * rung sees ω. The firmware samples that, and answers with commands that stand between its ticks; where all has
 * settled, z after one hyper-period T is exp(jωT) times what it was, which gives z, hence the staircase of every
 * command; its component at ω acts on the plant once more.
 */
import { exponential } from '../base/exponential.ts';
import { logarithm } from '../base/logarithm.ts';
import { cosine, sine, tangent } from '../base/sine.ts';
import type { ComplexColumn } from '../dense/hessenberg-form.ts';
import { type Answer, answerOf, type Kick } from './answer.ts';
import { type Complex, over } from './complex.ts';
import { addScaled, addTimes, along, sumOf, zeros } from './complex-columns.ts';
import { Hessenberg } from './hessenberg.ts';
import { type ClosedAt, InnerLoops, rowsOver } from './inner-loops.ts';
import type { PlantReading } from './plant.ts';
import { innerTasks, type Sampled } from './sampled.ts';
import { componentsAt } from './treads.ts';

/** What is moved: inputs of the plant, each with its weight. */
export interface Drive {
  readonly name: string;
  readonly weights: readonly { readonly input: number; readonly weight: number }[];
}

/** All that moves at one frequency under one drive. */
export interface Motion {
  /** The reading's component at the frequency, over the drive. */
  read(reading: PlantReading): Complex;
  /** Component of command k, in its own unit over the scale of the command. */
  command(k: number): Complex;
}

export class Curves {
  private readonly system: Sampled;
  private readonly plant: Hessenberg;
  private readonly inner: InnerLoops;
  private readonly answer: Answer | null;
  /** Drives, commands and readings in the basis of the plant's Hessenberg form, made once. */
  private readonly pushed = new WeakMap<Drive, ComplexColumn>();
  private readonly pushedCommands: readonly Float64Array[];
  private readonly seenThrough = new WeakMap<PlantReading, Float64Array>();
  /** What each task's sample and run see of the plant, row by row, in the same basis. */
  private readonly watched: readonly Record<Kick['kind'], readonly Float64Array[]>[];

  /** `firmware` false: all commands held but those of inner loops, which take the place of the stages' own. */
  constructor(system: Sampled, firmware = true) {
    this.system = system;
    const { plant } = system;
    this.plant = new Hessenberg(plant.A, plant.n);
    this.inner = new InnerLoops(system, this.plant);
    const isAnswering = firmware && innerTasks(system).length < system.tasks.length;
    this.answer = isAnswering ? answerOf(system) : null;
    const seenBy = isAnswering ? system : { commandColumns: [], tasks: [] };
    this.pushedCommands = seenBy.commandColumns.map((column) => this.plant.into(column));
    this.watched = seenBy.tasks.map(({ sample, run }) => ({
      sample: rowsOver(sample, plant.n).map((row) => this.plant.into(row)),
      run: rowsOver(run, plant.n).map((row) => this.plant.into(row)),
    }));
  }

  /** The frequency that the trapezoid of the system's rung makes of ω [rad/s]. */
  warped(omega: number): number {
    const h = this.system.rungTicks * this.system.tick_s;
    return (2 / h) * tangent((omega * h) / 2);
  }

  /** Motions under each drive at one frequency. */
  at(frequency_Hz: number, drives: readonly Drive[]): Motion[] {
    const omega = 2 * Math.PI * frequency_Hz;
    const s: Complex = { re: 0, im: this.warped(omega) };
    const forced = drives.map((drive) => this.pushOf(drive, s));
    this.plant.solve(s, forced);
    const closed = this.inner.at(omega, s);
    const own = drives.map(
      ({ weights }, k) => closed?.close(forced[k]!, { commands: null, weights }) ?? null,
    );
    const staircases = this.staircases(omega, s, drives, forced);
    const answered = staircases === null ? null : this.answered(s, staircases, closed);
    return drives.map((drive, k) => {
      const x = answered === null ? forced[k]! : sumOf(forced[k]!, answered[k]!.x);
      const parts = [own[k]!, staircases?.[k] ?? null, answered?.[k]?.own ?? null].filter(
        (one) => one !== null,
      );
      const staircase = parts.length === 0 ? null : parts.reduce(sumOf);
      return {
        read: (reading) => {
          const c = this.throughOf(reading);
          const direct = directOf(reading, drive, s);
          return { re: along(c, x.re) + direct.re, im: along(c, x.im) + direct.im };
        },
        command: (c) =>
          staircase === null ? { re: 0, im: 0 } : { re: staircase.re[c]!, im: staircase.im[c]! },
      };
    });
  }

  /** What a drive does to the plant, in the basis of its Hessenberg form. */
  private pushOf(drive: Drive, s: Complex): ComplexColumn {
    const known = this.pushed.get(drive) ?? this.pushThrough(drive);
    this.pushed.set(drive, known);
    return { re: known.re.slice(), im: known.im.map((slope) => slope * s.im) };
  }

  /** The part that follows the drive, and the part that follows its slope. */
  private pushThrough({ weights }: Drive): ComplexColumn {
    const { plant } = this.system;
    const out = zeros(plant.n);
    for (const { input, weight } of weights) {
      const { value, slope } = plant.B[input]!;
      addTimes(out, { re: value, im: slope }, { re: weight, im: 0 });
    }
    return { re: this.plant.into(out.re), im: this.plant.into(out.im) };
  }

  private throughOf(reading: PlantReading): Float64Array {
    const known = this.seenThrough.get(reading) ?? this.plant.into(reading.c);
    this.seenThrough.set(reading, known);
    return known;
  }

  private pushOfCommands(staircase: ComplexColumn): ComplexColumn {
    const out = zeros(this.system.plant.n);
    this.pushedCommands.forEach((column, c) => {
      addScaled(out, column, { re: staircase.re[c]!, im: staircase.im[c]! });
    });
    return out;
  }

  /** What staircases of the outer commands move, the inner loops closed, and what these command then. */
  private answered(
    s: Complex,
    staircases: readonly ComplexColumn[],
    closed: ClosedAt | null,
  ): { readonly x: ComplexColumn; readonly own: ComplexColumn | null }[] {
    const moved = staircases.map((staircase) => this.pushOfCommands(staircase));
    this.plant.solve(s, moved);
    return moved.map((x, k) => {
      const own = closed?.close(x, { commands: staircases[k]!, weights: [] }) ?? null;
      return { x, own };
    });
  }

  /** Components at ω of the commands, as the firmware answers to the plant's forced motion. */
  private staircases(
    omega: number,
    s: Complex,
    drives: readonly Drive[],
    /** In the basis of the plant's Hessenberg form. */
    forced: readonly ComplexColumn[],
  ): ComplexColumn[] | null {
    const { answer, system } = this;
    if (answer === null) return null;
    const c = system.commandCount;
    const fold = componentsAt(answer.treads, omega, { commandCount: c, period_s: answer.period_s });
    // Per task and row seen: what it leaves in z, and in the commands' components, over all its moments.
    const left = new Map<string, { readonly end: ComplexColumn[]; readonly commands: ComplexColumn[] }>();
    for (const { tick, task, kind, end, commands } of answer.kicks) {
      const angle = omega * tick * system.tick_s;
      const turn = { re: cosine(angle), im: sine(angle) };
      const key = `${task} ${kind}`;
      if (!left.has(key)) {
        left.set(key, {
          end: end.map(() => zeros(system.size)),
          commands: end.map(() => zeros(c)),
        });
      }
      const sums = left.get(key)!;
      end.forEach((column, row) => {
        addScaled(sums.end[row]!, column, turn);
        addTimes(sums.commands[row]!, fold(commands[row]!), turn);
      });
    }
    const pulls = drives.map((drive, k) => this.seen(drive, s, forced[k]!));
    const sides = pulls.map((pull) => {
      const z = zeros(system.size);
      for (const [key, { end }] of left) {
        const seen = seenBy(pull, key);
        end.forEach((column, row) => {
          addTimes(z, column, { re: seen.re[row]!, im: seen.im[row]! });
        });
      }
      return z;
    });
    const angle = omega * answer.period_s;
    answer.whole.solve({ re: cosine(angle), im: sine(angle) }, sides);
    const folded = answer.fromStart.map(fold);
    return sides.map((start, d) => {
      const out = zeros(c);
      folded.forEach((column, k) => {
        addTimes(out, column, { re: start.re[k]!, im: start.im[k]! });
      });
      for (const [key, { commands }] of left) {
        const seen = seenBy(pulls[d]!, key);
        commands.forEach((column, row) => {
          addTimes(out, column, { re: seen.re[row]!, im: seen.im[row]! });
        });
      }
      return out;
    });
  }

  /** What each task's sample sees of the forced motion and of the drive itself, and its run where it looks directly. */
  private seen(
    drive: Drive,
    s: Complex,
    forced: ComplexColumn,
  ): { sample: ComplexColumn; run: ComplexColumn }[] {
    const { system } = this;
    return system.tasks.map((task, t) => {
      const through = (rows: readonly Float64Array[]): ComplexColumn => ({
        re: Float64Array.from(rows, (row) => along(row, forced.re)),
        im: Float64Array.from(rows, (row) => along(row, forced.im)),
      });
      const sample = through(this.watched[t]!.sample);
      const run = through(this.watched[t]!.run);
      for (const { input, weight } of drive.weights) {
        const direct = task.direct[input];
        if (direct === undefined) continue;
        for (let i = 0; i < sample.re.length; i++) {
          sample.re[i]! += weight * direct.value[i]!;
          sample.im[i]! += weight * direct.slope[i]! * s.im;
        }
        const own = task.runDirect[input]!;
        for (let i = 0; i < run.re.length; i++) run.re[i]! += weight * own[i]!;
      }
      return { sample, run };
    });
  }
}

function seenBy(
  pull: readonly { readonly sample: ComplexColumn; readonly run: ComplexColumn }[],
  key: string,
): ComplexColumn {
  const [task, kind] = key.split(' ');
  return pull[Number(task)]![kind as 'sample' | 'run'];
}

function directOf(reading: PlantReading, drive: Drive, s: Complex): Complex {
  let [re, im] = [0, 0];
  for (const { input, weight } of drive.weights) {
    re += weight * reading.d[input]!;
    im += weight * reading.e[input]! * s.im;
  }
  return { re, im };
}

/** Loop gain from the closed loop's answer at the break: what comes back is H per unit put in, L = −H/(1 + H). */
export function loopGain(H: Complex): Complex {
  return over({ re: -H.re, im: -H.im }, { re: 1 + H.re, im: H.im });
}

/** Frequencies from `low` to `high`, evenly on a log scale. */
export function logFrequencies(low_Hz: number, high_Hz: number, count: number): number[] {
  const span = logarithm(high_Hz / low_Hz);
  return Array.from({ length: count }, (_, k) => low_Hz * exponential((span * k) / (count - 1)));
}
