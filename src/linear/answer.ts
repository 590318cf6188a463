/**
 * What the firmware answers over one hyper-period to what it sees: the commands over every stretch, and what is left at the
 * end. It does not hang on the frequency, and is carried out once for all of them.
 */
import { multiply } from '../dense/dense.ts';
import { Hessenberg } from './hessenberg.ts';
import { type Operation, PeriodMap, wholePeriod } from './period-map.ts';
import type { LinearTask, Sampled } from './sampled.ts';
import { Stretches } from './stretches.ts';
import { type Treads, treadsOf } from './treads.ts';

/** How one sampling or run of a task that sees something from outside shows up later. */
export interface Kick {
  readonly tick: number;
  readonly task: number;
  readonly kind: 'sample' | 'run';
  /** For each row seen: what it leaves in z at the end of the hyper-period, in the basis of `whole`. */
  readonly end: readonly Float64Array[];
  /** For each row seen: the levels of all treads. */
  readonly commands: readonly Float64Array[];
}

/** The firmware's answer over one hyper-period, carried out once for every frequency. */
export interface Answer {
  readonly period_s: number;
  readonly treads: Treads;
  readonly whole: Hessenberg;
  /** For each vector of the basis of `whole` at the start: the levels of all treads. */
  readonly fromStart: readonly Float64Array[];
  readonly kicks: readonly Kick[];
}

/** Carries every element of z, and everything a task may see from outside, over one hyper-period. */
export function answerOf(system: Sampled): Answer {
  const { plant, commandColumns, tick_s, rungTicks } = system;
  const ticks = wholePeriod(system, 'carried');
  const map = new PeriodMap(
    system,
    ticks,
    new Stretches(plant.A, commandColumns, plant.n, tick_s, rungTicks),
  );
  return map.operating((operate) => answerThrough(system, map, operate));
}

function answerThrough(
  system: Sampled,
  map: PeriodMap,
  operate: (operation: Operation, z: Float64Array) => void,
): Answer {
  const { plant, tasks, size } = system;
  const treads = treadsOf(system, map.operations, map.ticks);
  /** Carries z from operation `first` on; gives the levels of all treads. */
  const carry = (z: Float64Array, first: number): Float64Array => {
    const levels = new Float64Array(treads.command.length);
    let stretch = map.operations.slice(0, first).filter(({ kind }) => kind === 'stretch').length;
    for (const operation of map.operations.slice(first)) {
      if (operation.kind === 'stretch')
        for (const tread of treads.begin[stretch++]!) levels[tread] = z[plant.n + treads.command[tread]!]!;
      operate(operation, z);
    }
    return levels;
  };
  const matrix = new Float64Array(size * size);
  const levels = treads.command.length;
  const unitStarts = new Float64Array(size * levels);
  for (let j = 0; j < size; j++) {
    const z = new Float64Array(size);
    z[j] = 1;
    unitStarts.set(carry(z, 0), j * levels);
    for (let i = 0; i < size; i++) matrix[i * size + j] = z[i]!;
  }
  const whole = new Hessenberg(matrix, size);
  const kicks = map.operations.flatMap((operation, at): Kick[] => {
    // Inner loops answer at every frequency by themselves (inner-loops.ts).
    if (operation.kind === 'stretch' || operation.task.isInner) return [];
    const jump = operation.task[operation.kind];
    // A run that looks at nothing but its samples sees nothing from outside.
    const seen = operation.kind === 'run' ? rowsSeen(operation.task, plant.n) : null;
    if (seen !== null && !seen.includes(true)) return [];
    const end: Float64Array[] = [];
    const commands: Float64Array[] = [];
    for (const [k, row] of jump.rows.entries()) {
      const z = new Float64Array(size);
      if (seen?.[k] === false) {
        commands.push(new Float64Array(levels));
        end.push(z);
        continue;
      }
      z[row] = 1;
      commands.push(carry(z, at + 1));
      end.push(whole.into(z));
    }
    return [
      {
        tick: operation.tick,
        task: tasks.indexOf(operation.task),
        kind: operation.kind,
        end,
        commands,
      },
    ];
  });
  return {
    period_s: map.period_s,
    treads,
    whole,
    fromStart: startsOf(whole, unitStarts, levels),
    kicks,
  };
}

/** Rows of a task's run that look at the plant as it stands, or at an input of it. */
function rowsSeen({ run: { rows, columns, matrix }, runDirect }: LinearTask, n: number): boolean[] {
  return Array.from(
    rows,
    (_, i) =>
      runDirect.some((column) => column[i] !== 0) ||
      columns.some((column, j) => column < n && matrix[i * columns.length + j] !== 0),
  );
}

/** Qᵀ times what each element of z leads to: what each vector of the basis does. */
function startsOf({ q, n }: Hessenberg, unitStarts: Float64Array, levels: number): Float64Array[] {
  const turned = new Float64Array(n * n);
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) turned[j * n + i] = q[i * n + j]!;
  const out = new Float64Array(n * levels);
  multiply(out, turned, unitStarts, n, n, levels);
  return Array.from({ length: n }, (_, k) => out.subarray(k * levels, (k + 1) * levels));
}
