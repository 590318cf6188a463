/**
 * The loops of a sampled task, opened at its commands: at its own rate, so exact up to half of that. What it answers is
 * asked for right after it has run: z → M (z + P d) over one period, the commands then being C z, so a sequence d ζᵏ,
 * ζ = exp(jωT), comes back as H = C (ζ I − M)⁻¹ M P. Slower tasks stand still; faster ones must fit (`unfitting`).
 */
import { cosine, sine } from '../base/sine.ts';
import type { ComplexMatrix } from './complex-matrix.ts';
import { Hessenberg } from './hessenberg.ts';
import { openedLoop } from './loops/opened.ts';
import { PeriodMap } from './period-map.ts';
import type { LinearTask, Sampled } from './sampled.ts';
import { Stretches } from './stretches.ts';

/**
 * A faster task whose period does not fit into this one's: what the task meets then differs from run to run, and its loop is
 * no loop of one rate. Null where all fit.
 */
export function unfitting({ tasks }: Pick<Sampled, 'tasks'>, { period }: LinearTask): LinearTask | null {
  return tasks.find((one) => one.period < period && period % one.period !== 0) ?? null;
}

export interface SampledLoops {
  readonly period_s: number;
  /** Loop gain L = −H (I + H)⁻¹ of all commands opened at once. */
  at(frequency_Hz: number): ComplexMatrix;
}

/** `patterns`: each a sum of commands by their place, driven and read alike; one loop for each. */
export function sampledLoops(system: Sampled, task: LinearTask, patterns: readonly Pattern[]): SampledLoops {
  const rows = patterns.map((pattern) => spread(pattern, system.plant.n, system.size));
  const { period_s, closed } = answersAfter(system, task, 'run', rows);
  return { period_s, at: (frequency_Hz) => openedLoop(closed(frequency_Hz)) };
}

/** What a sampled cabinet answers to what is put into z right after a task has sampled or run. */
export interface SampledAnswers {
  readonly period_s: number;
  /** M, over one period from there on. */
  readonly map: Float64Array;
  /** H = C (ζ I − M)⁻¹ M P. */
  closed(frequency_Hz: number): ComplexMatrix;
}

/** `rows`: sums of elements of z, driven and read alike. */
export function answersAfter(
  system: Sampled,
  task: LinearTask,
  kind: 'sample' | 'run',
  rows: readonly Float64Array[],
): SampledAnswers {
  const { plant, size, tick_s } = system;
  const tasks = system.tasks.filter(({ period }) => task.period % period === 0);
  const map = new PeriodMap(
    { ...system, tasks },
    task.period,
    new Stretches(plant.A, system.commandColumns, plant.n, tick_s, system.rungTicks),
  );
  const after = map.operations.findIndex((one) => one.kind === kind && one.task === task) + 1;
  const whole = map.matrix(after);
  const M = new Hessenberg(whole, size);
  const pushed = map.carrying((carry) => {
    return rows.map((row) => {
      const z = row.slice();
      carry(z);
      return M.into(z);
    });
  }, after);
  const readings = rows.map((row) => M.into(row.map((weight) => weight / along(row, row))));
  const period_s = task.period * tick_s;
  return {
    period_s,
    map: whole,
    closed(frequency_Hz) {
      const angle = 2 * Math.PI * frequency_Hz * period_s;
      const sides = pushed.map((column) => ({
        re: column.slice(),
        im: new Float64Array(size),
      }));
      M.solve({ re: cosine(angle), im: sine(angle) }, sides);
      return readings.map((row) => sides.map((x) => ({ re: along(row, x.re), im: along(row, x.im) })));
    },
  };
}

export type Pattern = readonly {
  readonly command: number;
  readonly weight: number;
}[];

/** A sum of commands over the elements of z. */
export function spread(pattern: Pattern, first: number, size: number): Float64Array {
  const row = new Float64Array(size);
  for (const { command, weight } of pattern) row[first + command] = weight;
  return row;
}

function along(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
