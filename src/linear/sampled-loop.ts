/**
 * The loops of a sampled task, opened at its commands: at its own rate, so exact up to half of that. What it answers is
 * asked for right after it has run: z → M (z + P d) over one period, the commands then being C z, so a sequence d ζᵏ,
 * ζ = exp(jωT), comes back as H = C (ζ I − M)⁻¹ M P. Slower tasks stand still; faster ones whose periods fit act.
 */
import { cosine, sine } from '../base/sine.ts';
import type { ComplexMatrix } from './complex-matrix.ts';
import { Hessenberg } from './hessenberg.ts';
import { openedLoop } from './loops/opened.ts';
import { PeriodMap, Stretches } from './period-map.ts';
import type { LinearTask, Sampled } from './sampled.ts';

export interface SampledLoops {
  readonly period_s: number;
  /** Loop gain L = −H (I + H)⁻¹ of all commands opened at once. */
  at(frequency_Hz: number): ComplexMatrix;
}

/** `patterns`: each a sum of commands by their place, driven and read alike; one loop for each. */
export function sampledLoops(system: Sampled, task: LinearTask, patterns: readonly Pattern[]): SampledLoops {
  const { plant, size, tick_s } = system;
  const tasks = system.tasks.filter(({ period }) => task.period % period === 0);
  const map = new PeriodMap(
    { ...system, tasks },
    task.period,
    new Stretches(plant.A, system.commandColumns, plant.n, tick_s, system.rungTicks),
  );
  const after = map.operations.findIndex((one) => one.kind === 'run' && one.task === task) + 1;
  const M = new Hessenberg(map.matrix(after), size);
  const rows = patterns.map((pattern) => spread(pattern, plant.n, size));
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
    at(frequency_Hz) {
      const angle = 2 * Math.PI * frequency_Hz * period_s;
      const sides = pushed.map((column) => ({ re: column.slice(), im: new Float64Array(size) }));
      M.solve({ re: cosine(angle), im: sine(angle) }, sides);
      return openedLoop(
        readings.map((row) => sides.map((x) => ({ re: along(row, x.re), im: along(row, x.im) }))),
      );
    },
  };
}

export type Pattern = readonly { readonly command: number; readonly weight: number }[];

function spread(pattern: Pattern, first: number, size: number): Float64Array {
  const row = new Float64Array(size);
  for (const { command, weight } of pattern) row[first + command] = weight;
  return row;
}

function along(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}
