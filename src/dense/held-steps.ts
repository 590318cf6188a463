/** Factors that many vectors are stepped through, held in the compiled form's memory meanwhile. */
import type { Int } from '../base/int.ts';
import { compiled } from './compiled.ts';
import { takeSteps } from './stepping.ts';

/** I − qA in factors, as `stepping.ts` reads them. */
export interface StepFactors {
  readonly n: number;
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly ends: Int32Array;
  readonly sources: Int32Array;
  readonly factors: Float64Array;
  readonly twice: Float64Array;
}

/** So many steps of z in place, n numbers, pushed by as many in each. */
export type Step = (z: Float64Array, push: Float64Array, by: StepFactors, steps: number) => void;

/** `work` steps by these, and no others. */
export function holdingSteps<T>(all: ReadonlySet<StepFactors>, work: (step: Step) => T): T {
  const fast = compiled();
  const widest = Math.max(0, ...[...all].map(({ n }) => n));
  if (fast === null) {
    const w = new Float64Array(widest);
    return work((z, push, { n, rows, columns, ends, sources, factors, twice }, steps) =>
      takeSteps(z, push, w, n, steps, rows, columns, ends, sources, factors, twice),
    );
  }
  const room = [...all].reduce((sum, { n, factors }) => sum + 2 * factors.length + 4 * n, 3 * widest);
  return fast.holding(room, (from) => {
    let next = from;
    const place = (numbers: number): Int => {
      const address = next;
      next += 8 * numbers;
      return address;
    };
    const [z_at, push_at, w_at] = [place(widest), place(widest), place(widest)];
    const held = new Map<StepFactors, (steps: number) => void>();
    for (const one of all) {
      const { n, rows, columns, ends, sources, factors, twice } = one;
      const count = factors.length;
      const at = [place(n), place(n), place(n), place(count), place(count), place(n)] as const;
      fast.writeWhole(rows, at[0]);
      fast.writeWhole(columns, at[1]);
      fast.writeWhole(ends, at[2]);
      fast.writeWhole(sources, at[3]);
      fast.write(factors, at[4]);
      fast.write(twice, at[5]);
      held.set(one, (steps) => fast.call.takeSteps(z_at, push_at, w_at, n, steps, ...at));
    }
    return work((z, push, by, steps) => {
      fast.write(z, z_at);
      fast.write(push, push_at);
      held.get(by)!(steps);
      fast.takeBack(z, z_at);
    });
  });
}
