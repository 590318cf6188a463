/** Dense real matrices as flat rows: what the linear analysis needs of them, and no more. */
import { compiled } from './compiled.ts';
import { eliminate } from './elimination.ts';
import { addProduct as addPlainly } from './products.ts';

/** Below so many uses of each number, moving them into the compiled form's memory costs more than it saves. */
const fewUses = 8;

/** c = a b for a (rows × inner) and b (inner × columns). */
export function multiply(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  c.fill(0);
  addProduct(c, a, b, rows, inner, columns);
}

/** c += a b, in the same way. */
export function addProduct(
  c: Float64Array,
  a: Float64Array,
  b: Float64Array,
  rows: number,
  inner: number,
  columns: number,
): void {
  const fast = Math.min(rows, inner, columns) < fewUses ? null : compiled();
  if (fast === null) addPlainly(c, a, b, rows, inner, columns);
  else
    fast.through([c, a, b], [c], (...at) =>
      fast.call.addProduct(at[0]!, at[1]!, at[2]!, rows, inner, columns),
    );
}

/** Solves a x = b in place of b (n × columns); a is lost. Partial pivoting. Throws RangeError where a is singular. */
export function solveInPlace(a: Float64Array, b: Float64Array, n: number, columns: number): void {
  const fast = Math.min(n, columns) < fewUses ? null : compiled();
  const singular =
    fast === null
      ? eliminate(a, b, n, columns)
      : fast.through([a, b], [b], (...at) => fast.call.eliminate(at[0]!, at[1]!, n, columns));
  if (singular >= 0) throw new RangeError(`matrix of ${n} rows is singular at column ${singular}`);
}

/** The square part of `a` (n × n) at `places`, in their order. */
export function pick(a: Float64Array, n: number, places: readonly number[]): Float64Array {
  const m = places.length;
  const out = new Float64Array(m * m);
  for (let i = 0; i < m; i++) for (let j = 0; j < m; j++) out[i * m + j] = a[places[i]! * n + places[j]!]!;
  return out;
}
