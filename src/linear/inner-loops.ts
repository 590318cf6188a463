/**
 * Inner sampled loops at one frequency: those that stand where the stages would have their own. What they sample moves as
 * Y exp(jωnT); their law answers with commands C exp(jωnT), held from phase to phase + T, whose component at ω is
 *
 *   u = C exp(−jω·phase) (1 − exp(−jωT))/(jωT)
 *
 * so that each is a hold and a delay: their own images at ω ± 2π/T, which the plant has damped by then, are left out (voltage-loop.md
 * says how much that is). Modes and margins come from the period maps, which leave nothing out.
 */
import { cosine, sine } from '../base/sine.ts';
import type { ComplexColumn } from '../dense/hessenberg-form.ts';
import { add, type Complex, over, scaled, times } from './complex.ts';
import { addTimes, along, zeros } from './complex-columns.ts';
import { type ComplexMatrix, inverseOf, product } from './complex-matrix.ts';
import type { Hessenberg } from './hessenberg.ts';
import { innerTasks, type LinearTask, type Sampled } from './sampled.ts';

/** What inner loops see beside the plant's motion: outer commands, and what is driven. */
export interface Outside {
  /** Components at ω of all commands; null for none. */
  readonly commands: ComplexColumn | null;
  /** Drives: plant inputs with their weights. */
  readonly weights: readonly { readonly input: number; readonly weight: number }[];
}

/** A task with what it sees of the plant, in the basis of the plant's Hessenberg form. */
interface Watching {
  readonly task: LinearTask;
  readonly sampled: readonly Float64Array[];
  readonly looked: readonly Float64Array[];
  /** Its commands' places among all. */
  readonly commands: readonly number[];
}

export interface ClosedAt {
  /** Adds to a forced motion x of the plant what the inner loops make of it; gives their commands' components among all. */
  close(x: ComplexColumn, outside: Outside): ComplexColumn;
}

export class InnerLoops {
  private readonly system: Sampled;
  private readonly plant: Hessenberg;
  private readonly tasks: readonly Watching[];
  /** Of each of their commands, in turn: its place among all, and what it does to the plant. */
  private readonly pushes: readonly { readonly command: number; readonly push: Float64Array }[];

  constructor(system: Sampled, plant: Hessenberg) {
    const { n } = system.plant;
    this.system = system;
    this.plant = plant;
    this.tasks = innerTasks(system).map((task) => ({
      task,
      sampled: rowsOver(task.sample, n).map((row) => plant.into(row)),
      looked: rowsOver(task.run, n).map((row) => plant.into(row)),
      commands: [...task.run.rows].slice(task.memoryCount).map((row) => row - n),
    }));
    this.pushes = this.tasks.flatMap(({ commands }) =>
      commands.map((command) => ({ command, push: plant.into(system.commandColumns[command]!) })),
    );
  }

  /** At ω, with s as the plant's trapezoid sees it; null where there are none. */
  at(omega: number, s: Complex): ClosedAt | null {
    const { system, plant, pushes, tasks } = this;
    if (pushes.length === 0) return null;
    const answers = pushes.map(({ push }) => ({ re: push.slice(), im: new Float64Array(push.length) }));
    plant.solve(s, answers);
    const laws = tasks.map((watching) => new LawAt(watching, system, omega));
    const own = (x: ComplexColumn, outside: Outside): Complex[] =>
      laws.flatMap((law) => law.commands(x, outside, s));
    const nothing = { commands: null, weights: [] };
    // u = F(x + Σ u_j x_j, …), F linear: (I − F x_j) u = F(x, …).
    const back = answers.map((answer) => own(answer, nothing));
    const matrix = pushes.map((_, i) =>
      back.map((column, j) => add({ re: i === j ? 1 : 0, im: 0 }, scaled(column[i]!, -1))),
    );
    const inverse = inverseOf(matrix);
    return {
      close(x, outside) {
        const asked = own(x, outside);
        const u = product(
          inverse,
          asked.map((value) => [value]),
        );
        const all = zeros(system.commandCount);
        pushes.forEach(({ command }, j) => {
          addTimes(x, answers[j]!, u[j]![0]!);
          all.re[command] = u[j]![0]!.re;
          all.im[command] = u[j]![0]!.im;
        });
        return all;
      },
    };
  }
}

/** The law of one task at ω. */
class LawAt {
  private readonly watching: Watching;
  private readonly n: number;
  /** Turn from a sampling to its run, and from that sampling's run to what the run reads. */
  private readonly toRun: Complex;
  private readonly old: Complex;
  private readonly hold: Complex;
  /** What a command takes of what the run makes of memory: R_CM e (I − e R_MM)⁻¹, e = exp(−jωT). */
  private readonly through: ComplexMatrix;
  private readonly columns: ReadonlyMap<number, number>;

  constructor(watching: Watching, { plant, tick_s }: Sampled, omega: number) {
    const { task } = watching;
    const T = task.period * tick_s;
    const turn = (time_s: number): Complex => ({ re: cosine(omega * time_s), im: sine(omega * time_s) });
    const phase = turn(task.phase * tick_s);
    const e = turn(-T);
    this.watching = watching;
    this.n = plant.n;
    this.toRun = phase;
    this.old = turn(-(task.slots - 1) * T);
    const jwT = { re: 0, im: omega * T };
    const held = omega * T < 1e-6 ? { re: 1, im: 0 } : over({ re: 1 - e.re, im: -e.im }, jwT);
    this.hold = times(held, turn(-task.phase * tick_s));
    this.columns = new Map([...task.run.columns].map((column, j) => [column, j]));
    const m = task.memoryCount;
    const memory = (i: number, j: number): number => this.entry(i, task.memoryAt + j);
    const range = Array.from({ length: m }, (_, k) => k);
    const stays = range.map((i) =>
      range.map((j) => ({ re: (i === j ? 1 : 0) - e.re * memory(i, j), im: -e.im * memory(i, j) })),
    );
    const kept = watching.commands.map((_, c) => range.map((j) => scaled(e, memory(m + c, j))));
    this.through = m === 0 ? kept : product(kept, inverseOf(stays));
  }

  private entry(row: number, column: number): number {
    const { run } = this.watching.task;
    const j = this.columns.get(column);
    return j === undefined ? 0 : run.matrix[row * run.columns.length + j]!;
  }

  /** Components at ω of its commands. */
  commands(x: ComplexColumn, outside: Outside, s: Complex): Complex[] {
    const { hold, through, watching } = this;
    const seen = this.seen(x, outside, s);
    const m = watching.task.memoryCount;
    return watching.commands.map((_, c) => {
      let sum = seen[m + c]!;
      for (let j = 0; j < m; j++) sum = add(sum, times(through[c]![j]!, seen[j]!));
      return times(hold, sum);
    });
  }

  /** What each row of a run makes of samples, outer commands and drives, memory apart. */
  private seen(x: ComplexColumn, outside: Outside, s: Complex): Complex[] {
    const { watching, n, toRun, old } = this;
    const { task, sampled, looked } = watching;
    const samples = sampled.map((row, i) => {
      let y: Complex = { re: along(row, x.re), im: along(row, x.im) };
      for (const { input, weight } of outside.weights) {
        const { value, slope } = task.direct[input]!;
        y = add(y, { re: weight * value[i]!, im: weight * slope[i]! * s.im });
      }
      return times(y, old);
    });
    const oldest = task.samplesAt + (task.slots - 1) * task.size;
    return looked.map((row, i) => {
      let now: Complex = { re: along(row, x.re), im: along(row, x.im) };
      for (const { input, weight } of outside.weights)
        now = add(now, { re: weight * task.runDirect[input]![i]!, im: 0 });
      const { commands } = outside;
      if (commands !== null)
        commands.re.forEach((re, k) => {
          now = add(now, scaled({ re, im: commands.im[k]! }, this.entry(i, n + k)));
        });
      let sum = times(now, toRun);
      samples.forEach((y, k) => {
        sum = add(sum, scaled(y, this.entry(i, oldest + k)));
      });
      return sum;
    });
  }
}

/** The part of a jump that looks at the plant: a row over its states for each of its rows. */
export function rowsOver({ rows, columns, matrix }: LinearTask['run'], n: number): Float64Array[] {
  return Array.from(rows, (_, i) => {
    const row = new Float64Array(n);
    columns.forEach((column, j) => {
      if (column < n) row[column] = matrix[i * columns.length + j]!;
    });
    return row;
  });
}
