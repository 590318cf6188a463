/** How node voltages follow from the states, the inputs and their slopes. */
import { solveInPlace } from '../dense/dense.ts';
import type { IntoBare } from './bare-nodes.ts';
import type { Entries } from './entries.ts';
import type { Jacobian } from './jacobian.ts';
import type { PlantInput } from './plant-input.ts';

/** Rows of [v] = −(x, u, du/dt), one for each node: N states, then twice the p inputs. */
export function voltageRows(
  { fx, fv, gx, gv, states: N, nodes: M }: Jacobian,
  fu: Entries,
  inputs: readonly PlantInput[],
  bare: readonly number[],
  { free, drives }: IntoBare,
): Float64Array {
  const p = inputs.length;
  const wide = N + 2 * p;
  const lhs = new Float64Array(M * M);
  const rhs = new Float64Array(M * wide);
  gv.each((row, j, slope) => {
    if (!bare.includes(row)) lhs[row * M + j] = slope;
  });
  gx.each((row, j, slope) => {
    if (!bare.includes(row)) rhs[row * wide + j] = -slope;
  });
  inputs.forEach((input, j) => {
    if (input.kind === 'current' && !bare.includes(input.node)) rhs[input.node * wide + N + j] = -1;
  });
  for (const n of bare) {
    const row = free.subarray(n * N, (n + 1) * N);
    const overX = new Float64Array(N);
    const overU = new Float64Array(p);
    fv.addFolded(lhs.subarray(n * M, (n + 1) * M), row);
    fx.addFolded(overX, row);
    fu.addFolded(overU, row);
    for (let j = 0; j < N; j++) rhs[n * wide + j] = -overX[j]!;
    for (let j = 0; j < p; j++) {
      rhs[n * wide + N + j] = -overU[j]!;
      rhs[n * wide + N + p + j] = -drives[n * p + j]!;
    }
  }
  solveInPlace(lhs, rhs, M, wide);
  return rhs;
}

/** A column of node voltages that is being summed from columns of their rows. */
export class NodeColumn {
  private readonly rows: Float64Array;
  private readonly wide: number;
  private readonly sum: Float64Array;

  constructor(rows: Float64Array, count: number, wide: number) {
    this.rows = rows;
    this.wide = wide;
    this.sum = new Float64Array(count);
  }

  add(column: number, f: number): void {
    const { rows, wide, sum } = this;
    for (let i = 0; i < sum.length; i++) sum[i]! += rows[i * wide + column]! * f;
  }

  /** Puts it into V as its next column, and begins anew. */
  end(V: Entries): void {
    const { sum } = this;
    for (let i = 0; i < sum.length; i++) V.put(i, sum[i]!);
    V.end();
    sum.fill(0);
  }
}
