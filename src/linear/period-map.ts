/**
 * What one hyper-period of the firmware does to z: jumps where tasks sample and run, and stretches of trapezoidal steps
 * between them (`stretches.ts`, `steps.ts`).
 */
import { BadInput } from '../base/problem.ts';
import { formatQuantity } from '../base/quantity.ts';
import { type CarriedStretch, carryingStretches } from './carried-stretches.ts';
import { type Jump, type LinearTask, outerTasks, type Sampled } from './sampled.ts';

export type Operation =
  | { readonly kind: 'sample' | 'run'; readonly task: LinearTask; readonly tick: number }
  | { readonly kind: 'stretch'; readonly stretch: CarriedStretch; readonly tick: number };

/** What tells the stretches of a plant, of which one or several carry it over so many ticks. */
export interface Carriers {
  pieces(ticks: number): readonly CarriedStretch[];
}

/** Longest hyper-period that is still multiplied out, in ticks per tick length: 2 s. */
const longest_s = 2;

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** Ticks after which all tasks stand as at the start; null when that is too long to be multiplied out. */
export function hyperPeriod({ tasks, tick_s }: Pick<Sampled, 'tasks' | 'tick_s'>): number | null {
  let all = 1;
  for (const { period } of tasks) {
    all = (all / greatestDivisor(all, period)) * period;
    if (all * tick_s > longest_s) return null;
  }
  return all;
}

/** Most samplings of the fastest task, inner ones apart, in a hyper-period that frequency responses are carried through. */
const mostSamplings = 250;

/**
 * The hyper-period in ticks. Throws BadInput where the periods have no common multiple within 2 s, or, with
 * `through`, one of more than 250 samplings: each of them is carried to the end of the hyper-period.
 */
export function wholePeriod(
  system: Pick<Sampled, 'tasks' | 'tick_s'>,
  through: 'carried' | 'multiplied' = 'multiplied',
): number {
  const ticks = hyperPeriod(system);
  const shortest = Math.min(...outerTasks(system).map(({ period }) => period));
  if (ticks !== null && (through === 'multiplied' || ticks <= mostSamplings * shortest)) return ticks;
  const { tick_s, tasks } = system;
  const words = (period: number): string => formatQuantity(Number((period * tick_s).toPrecision(9)), 'time');
  throw new BadInput([
    {
      severity: 'error',
      path: tasks.map(({ periodPath }) => periodPath).join(', '),
      found: `${tasks.map(({ name, period }) => `${name} every ${words(period)}`).join(', ')}: ${periodFault(ticks, shortest, tick_s)}`,
      expected: `periods that all fit into 2 s${through === 'carried' ? ` and into ${mostSamplings} of the shortest` : ''}`,
      mend: `make each a multiple of the next shorter, for example ${fittingPeriods(tasks, shortest)
        .map(({ path, period }) => `${path} ${words(period)}`)
        .join(', ')}`,
    },
  ]);
}

/** Changes after which all periods fit, and none is more than 250 of the shortest: inner loops give way, else the longer. */
function fittingPeriods(
  tasks: readonly LinearTask[],
  shortest: number,
): readonly { readonly path: string; readonly period: number }[] {
  const outer = outerTasks({ tasks });
  let below = shortest;
  return [...tasks]
    .sort((a, b) => a.period - b.period)
    .flatMap((task) => {
      const times = Math.max(1, Math.min(mostSamplings, Math.round(task.period / below)));
      const period = outer.includes(task) ? times * below : nearestDivisor(shortest, task.period);
      if (outer.includes(task)) below = period;
      return period === task.period ? [] : [{ path: task.periodPath, period }];
    });
}

/** The divisor of `whole` nearest to `wanted`. */
function nearestDivisor(whole: number, wanted: number): number {
  let best = whole;
  for (let k = 1; k <= whole; k++)
    if (whole % k === 0 && Math.abs(whole / k - wanted) < Math.abs(best - wanted)) best = whole / k;
  return best;
}

function periodFault(ticks: number | null, shortest: number, tick_s: number): string {
  return ticks === null
    ? 'no common multiple within 2 s'
    : `their common multiple is ${formatQuantity(Number((ticks * tick_s).toPrecision(9)), 'time')}, ${ticks / shortest} of the shortest`;
}

export class PeriodMap {
  readonly system: Sampled;
  readonly ticks: number;
  readonly operations: readonly Operation[];
  private readonly scratch: Float64Array;

  constructor(system: Sampled, ticks: number, stretches: Carriers) {
    this.system = system;
    this.ticks = ticks;
    this.operations = operationsOf(system, ticks, stretches);
    this.scratch = new Float64Array(system.size);
  }

  get period_s(): number {
    return this.ticks * this.system.tick_s;
  }

  /** `carry`: what carries z over a stretch. */
  private operate(
    operation: Operation,
    z: Float64Array,
    carry: (stretch: CarriedStretch, z: Float64Array) => void,
  ): void {
    if (operation.kind === 'stretch') {
      carry(operation.stretch, z);
      return;
    }
    const { scratch } = this;
    const { task } = operation;
    const jump = operation.kind === 'sample' ? task.sample : task.run;
    this.follow(jump, z);
    if (operation.kind === 'sample') {
      z.copyWithin(task.samplesAt + task.size, task.samplesAt, task.samplesAt + (task.slots - 1) * task.size);
    }
    for (let i = 0; i < jump.rows.length; i++) z[jump.rows[i]!] = scratch[i]!;
  }

  private follow({ rows, columns, matrix }: Jump, z: Float64Array): void {
    const w = columns.length;
    for (let i = 0; i < rows.length; i++) {
      let s = 0;
      for (let j = 0; j < w; j++) s += matrix[i * w + j]! * z[columns[j]!]!;
      this.scratch[i] = s;
    }
  }

  /** `work` may carry vectors over operations, in place, as many as it likes: what carries them over stretches is held meanwhile. */
  operating<T>(work: (operate: (operation: Operation, z: Float64Array) => void) => T): T {
    const stretches = this.operations.flatMap((one) => (one.kind === 'stretch' ? [one.stretch] : []));
    return carryingStretches(stretches, (carry) => work((operation, z) => this.operate(operation, z, carry)));
  }

  /** The same over one hyper-period at a time, from operation `first` on. */
  carrying<T>(work: (carry: (z: Float64Array) => void) => T, first = 0): T {
    const turned = [...this.operations.slice(first), ...this.operations.slice(0, first)];
    return this.operating((operate) =>
      work((z) => {
        for (const operation of turned) operate(operation, z);
      }),
    );
  }

  /** The map as a matrix: one column for each element of z; from operation `first` on. */
  matrix(first = 0): Float64Array {
    const n = this.system.size;
    const out = new Float64Array(n * n);
    const z = new Float64Array(n);
    return this.carrying((carry) => {
      for (let j = 0; j < n; j++) {
        z.fill(0);
        z[j] = 1;
        carry(z);
        for (let i = 0; i < n; i++) out[i * n + j] = z[i]!;
      }
      return out;
    }, first);
  }
}

/** What is due in one hyper-period, in the order in which the engine's agenda runs it. */
function operationsOf({ tasks }: Sampled, ticks: number, stretches: Carriers): Operation[] {
  const due: { tick: number; order: number; kind: 'sample' | 'run'; task: LinearTask }[] = [];
  tasks.forEach((task, k) => {
    for (let tick = 0; tick < ticks; tick += task.period) {
      due.push({ tick, order: 2 * k, kind: 'sample', task });
      due.push({ tick: tick + task.phase, order: 2 * k + 1, kind: 'run', task });
    }
  });
  due.sort((a, b) => a.tick - b.tick || a.order - b.order);
  const out: Operation[] = [];
  let now = 0;
  const pass = (tick: number): void => {
    for (const stretch of tick > now ? stretches.pieces(tick - now) : []) {
      out.push({ kind: 'stretch', stretch, tick: now });
      now += stretch.ticks;
    }
  };
  for (const { tick, kind, task } of due) {
    pass(tick);
    out.push({ kind, task, tick });
  }
  pass(ticks);
  return out;
}
