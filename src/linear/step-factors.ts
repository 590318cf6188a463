/**
 * I − qA in factors, for plants in which a state follows a few others: their network is nearly a tree, and of 194 states an
 * ordered factor keeps no more places than A has. Columns in order of least degree; a diagonal is the pivot unless another row of
 * its column is a thousand times as large.
 * Reference: J. R. Gilbert, T. Peierls, SIAM Journal on Scientific and Statistical Computing 9(5), 1988.
 */
import type { StepFactors } from '../dense/held-steps.ts';
import { leastDegree } from '../nodal/least-degree.ts';

/** A diagonal of at least this share of the largest in its column is the pivot: an order that keeps zeros is worth more. */
const own_ratio = 1e-3;

/** Of A (n × n). Throws RangeError where I − qA is singular. */
export function stepFactors(A: Float64Array, n: number, q: number): StepFactors {
  const follows = entriesOf(A, n);
  const { node: columns } = leastDegree(
    n,
    follows.map(({ row, column }) => [row, column] as const),
  );
  const inColumn = Array.from({ length: n }, (): { row: number; value: number }[] => []);
  for (const { row, column, value } of follows) inColumn[column]!.push({ row, value: -q * value });
  /** Of each pivot its row, and of L below it the rows and factors. */
  const rows = new Int32Array(n);
  const pivot = new Int32Array(n).fill(-1);
  const below: { row: number; factor: number }[][] = [];
  const above: { source: number; factor: number }[][] = [];
  const twice = new Float64Array(n);
  const x = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const column = columns[k]!;
    x.fill(0);
    x[column] = 1;
    for (const { row, value } of inColumn[column]!) x[row]! += value;
    const upper: { source: number; factor: number }[] = [];
    for (let p = 0; p < k; p++) {
      const factor = x[rows[p]!]!;
      if (factor === 0) continue;
      upper.push({ source: p, factor });
      for (const one of below[p]!) x[one.row]! -= factor * one.factor;
    }
    const row = pivotOf(x, pivot, column);
    if (row < 0) throw new RangeError(`a step of ${n} states is singular at column ${column}`);
    rows[k] = row;
    pivot[row] = k;
    const d = x[row]!;
    twice[k] = 2 / d;
    above.push(upper.map(({ source, factor }) => ({ source, factor: factor / d })));
    const lower: { row: number; factor: number }[] = [];
    for (let i = 0; i < n; i++) if (pivot[i] === -1 && x[i] !== 0) lower.push({ row: i, factor: x[i]! / d });
    below.push(lower);
  }
  return { n, rows, columns, ...byRow(pivot, below, above), twice };
}

/** Factors of L by its rows, those of U from its last row back: of each row in the order of the columns that they are taken out with. */
function byRow(
  pivot: Int32Array,
  below: readonly (readonly { readonly row: number; readonly factor: number }[])[],
  above: readonly (readonly { readonly source: number; readonly factor: number }[])[],
): Pick<StepFactors, 'ends' | 'sources' | 'factors'> {
  const n = below.length;
  /** Where the next factor of each row stands: counted first, and in the end where the row ends. */
  const ends = new Int32Array(2 * n);
  for (const lower of below) for (const { row } of lower) ends[pivot[row]!]!++;
  for (const upper of above) for (const { source: row } of upper) ends[2 * n - 1 - row]!++;
  let count = 0;
  for (let k = 0; k < 2 * n; k++) {
    const own = ends[k]!;
    ends[k] = count;
    count += own;
  }
  const sources = new Int32Array(count);
  const factors = new Float64Array(count);
  const put = (row: number, source: number, factor: number): void => {
    const p = ends[row]!++;
    sources[p] = source;
    factors[p] = factor;
  };
  for (let k = 0; k < n; k++) for (const { row, factor } of below[k]!) put(pivot[row]!, k, factor);
  for (let k = n - 1; k >= 0; k--)
    for (const { source: row, factor } of above[k]!) put(2 * n - 1 - row, k, factor);
  return { ends, sources, factors };
}

function entriesOf(A: Float64Array, n: number): { row: number; column: number; value: number }[] {
  const out: { row: number; column: number; value: number }[] = [];
  for (let row = 0, at = 0; row < n; row++)
    for (let column = 0; column < n; column++, at++)
      if (A[at] !== 0) out.push({ row, column, value: A[at]! });
  return out;
}

/** The row of a column that is divided by: its own unless that is small or taken. −1 where nothing is left. */
function pivotOf(x: Float64Array, taken: Int32Array, own: number): number {
  let best = -1;
  let most = 0;
  for (let i = 0; i < x.length; i++) {
    if (taken[i] !== -1 || Math.abs(x[i]!) <= most) continue;
    most = Math.abs(x[i]!);
    best = i;
  }
  return taken[own] === -1 && Math.abs(x[own]!) >= own_ratio * most && x[own] !== 0 ? own : best;
}
