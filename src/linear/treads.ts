/**
 * The staircases of the commands over one hyper-period: a command stands still from one run that writes it to the next.
 * What it does at a frequency is the sum of its treads' components, (1/T) ∫ u exp(−jωt) dt over each.
 */
import { cosine, sine } from '../base/sine.ts';
import type { ComplexColumn } from '../dense/hessenberg-form.ts';
import { type Complex, scaled, times } from './complex.ts';
import { zeros } from './complex-columns.ts';
import type { Operation } from './period-map.ts';
import type { Sampled } from './sampled.ts';

interface Span {
  readonly from_s: number;
  readonly length_s: number;
}

export interface Treads {
  /** Of each tread: its command, and its span among `spans`. */
  readonly command: Int32Array;
  readonly span: Int32Array;
  readonly spans: readonly Span[];
  /** Of each stretch: the treads that begin with it. */
  readonly begin: readonly (readonly number[])[];
}

/** Over the operations of one hyper-period of so many ticks, which begins on a tread of every command; those of inner loops apart. */
export function treadsOf(
  { plant, commandCount, tick_s, tasks }: Pick<Sampled, 'plant' | 'commandCount' | 'tick_s' | 'tasks'>,
  operations: readonly Operation[],
  ticks: number,
): Treads {
  const command: number[] = [];
  const from: number[] = [];
  const begin: number[][] = [];
  const own = new Set(tasks.filter(({ isInner }) => isInner).flatMap(({ run }) => [...run.rows]));
  const isOuter = (k: number): boolean => !own.has(plant.n + k);
  let written = new Set(Array.from({ length: commandCount }, (_, k) => k).filter(isOuter));
  for (const operation of operations) {
    if (operation.kind === 'run' && !operation.task.isInner)
      for (const row of operation.task.run.rows)
        if (row >= plant.n && row < plant.n + commandCount) written.add(row - plant.n);
    if (operation.kind !== 'stretch') continue;
    begin.push([...written].map((k) => command.push(k) && from.push(operation.tick) - 1));
    written = new Set();
  }
  // From the last on, each ends where its command's next begins.
  const next = new Int32Array(commandCount).fill(ticks);
  const spans: Span[] = [];
  const known = new Map<string, number>();
  const span = new Int32Array(command.length);
  for (let k = command.length - 1; k >= 0; k--) {
    const [one, at] = [command[k]!, from[k]!];
    const key = `${at} ${next[one]}`;
    if (!known.has(key))
      known.set(key, spans.push({ from_s: at * tick_s, length_s: (next[one]! - at) * tick_s }) - 1);
    span[k] = known.get(key)!;
    next[one] = at;
  }
  return { command: Int32Array.from(command), span, spans, begin };
}

/** Makes of the levels of all treads the components of the commands at ω [rad/s]. */
export function componentsAt(
  { command, span, spans }: Treads,
  omega: number,
  { commandCount, period_s }: { readonly commandCount: number; readonly period_s: number },
): (levels: Float64Array) => ComplexColumn {
  const weights = spans.map(({ from_s, length_s: L }): Complex => {
    const part: Complex =
      omega * L < 1e-6
        ? { re: L, im: (-omega * L * L) / 2 }
        : { re: sine(omega * L) / omega, im: (cosine(omega * L) - 1) / omega };
    const back = { re: cosine(omega * from_s), im: -sine(omega * from_s) };
    return scaled(times(part, back), 1 / period_s);
  });
  const re = Float64Array.from(span, (k) => weights[k]!.re);
  const im = Float64Array.from(span, (k) => weights[k]!.im);
  return (levels) => {
    const out = zeros(commandCount);
    for (let k = 0; k < levels.length; k++) {
      const own = command[k]!;
      out.re[own]! += levels[k]! * re[k]!;
      out.im[own]! += levels[k]! * im[k]!;
    }
    return out;
  };
}
