/**
 * The plant made straight about where it rests: dξ/dt = A ξ + B u, v = … , with the node voltages eliminated.
 *
 * Node voltages follow from the currents into every node summing to zero. A node on which nothing but inductors
 * end (a bank's place) has no such equation of its own: there the inductors' currents sum to zero at all times,
 * so their slopes do too, which gives the voltage, and one of those currents is no state of its own. States
 * that nothing moves, or that nothing follows (walk-in ramps, the packs' charge), are left out.
 *
 * All states are carried over their size (labels.ts), which keeps the matrices in balance.
 */

import { multiply, solveInPlace } from '../dense/dense.ts';
import { apply } from '../dense/products.ts';
import type { Cabinet } from '../engine/cabinet.ts';
import { slopeOf } from './difference.ts';
import { Entries } from './entries.ts';
import { flowOf } from './followers.ts';
import { differentiate, type Jacobian } from './jacobian.ts';
import { stateLabels, stateScales } from './labels.ts';
import type { PlantInput } from './plant-input.ts';

/** A linear reading of the plant: y = c·ξ + d·u + e·du/dt. */
export interface PlantReading {
  readonly c: Float64Array;
  readonly d: Float64Array;
  readonly e: Float64Array;
}

export interface LinearPlant {
  readonly n: number;
  readonly labels: readonly string[];
  /** A over scaled states, n × n. */
  readonly A: Float64Array;
  readonly inputs: readonly PlantInput[];
  /** Columns of B, one for each input; `slope` is the part that follows du/dt (currents into nodes without a shunt). */
  readonly B: readonly { readonly value: Float64Array; readonly slope: Float64Array }[];
  /** The reading cx·x + cv·v of the engine's states and node voltages. */
  read(cx: Float64Array, cv: Float64Array): PlantReading;
  /** Scaled reduced states from deviations of the engine's states. */
  reduce(x: Float64Array): Float64Array;
  /** Deviations of the engine's states and node voltages from scaled reduced states. */
  expand(state: Float64Array): { readonly x: Float64Array; readonly v: Float64Array };
  /** Place of each reduced state among the engine's. */
  readonly places: readonly number[];
}

/** The one row of a matrix that is a row. */
const first = new Int32Array(1);

/** Smallest slope of a node's current that counts as a shunt [S]. */
const shunt_S = 1e-3;

export function linearPlant(cabinet: Cabinet, inputs: readonly PlantInput[]): LinearPlant {
  const { network, stepper } = cabinet;
  const x = stepper.x0;
  const v = stepper.v0;
  const scale = stateScales(network);
  const slopes = differentiate(network, x, v, scale);
  const N = slopes.states;
  const M = slopes.nodes;
  const p = inputs.length;
  const fu = new Float64Array(N * p);
  inputs.forEach((input, j) => {
    if (input.kind === 'current') return;
    const out = new Float64Array(N);
    const size = Math.max(1e-3, Math.abs(input.target[input.place]!));
    slopeOf(
      input.target,
      input.place,
      size,
      (dx) => flowOf(dx, network.devices, { network, x, v }),
      out,
      new Float64Array(N),
    );
    for (let i = 0; i < N; i++) fu[i * p + j] = out[i]!;
  });

  const bare = bareNodes(slopes);
  // Rows of [v] = −(x, u, du/dt): width N + 2 p.
  const wide = N + 2 * p;
  const lhs = new Float64Array(M * M);
  const rhs = new Float64Array(M * wide);
  for (let n = 0; n < M; n++) {
    if (bare.includes(n)) continue;
    for (let j = 0; j < M; j++) lhs[n * M + j] = slopes.gv[n * M + j]!;
    for (let j = 0; j < N; j++) rhs[n * wide + j] = -slopes.gx[n * N + j]!;
    inputs.forEach((input, j) => {
      if (input.kind === 'current' && input.node === n) rhs[n * wide + N + j] = -1;
    });
  }
  for (const n of bare) {
    const row = slopes.gx.subarray(n * N, (n + 1) * N);
    const overV = new Float64Array(M);
    const overX = new Float64Array(N);
    const overU = new Float64Array(p);
    multiply(overV, row, slopes.fv, 1, N, M);
    multiply(overX, row, slopes.fx, 1, N, N);
    multiply(overU, row, fu, 1, N, p);
    for (let j = 0; j < M; j++) lhs[n * M + j] = overV[j]!;
    for (let j = 0; j < N; j++) rhs[n * wide + j] = -overX[j]!;
    for (let j = 0; j < p; j++) rhs[n * wide + N + j] = -overU[j]!;
    inputs.forEach((input, j) => {
      if (input.kind === 'current' && input.node === n) rhs[n * wide + N + p + j] = -1;
    });
  }
  solveInPlace(lhs, rhs, M, wide);
  const voltage = rhs;

  const free = slopes.gx.slice();
  const drives = new Float64Array(M * p);
  for (const n of bare) {
    inputs.forEach((input, j) => {
      if (input.kind === 'current' && input.node === n) drives[n * p + j] = 1;
    });
  }
  const pivots = pivotsOf({ gx: free, states: N }, bare, { drives, width: p });
  const kept = keptStates(slopes, pivots);
  const n = kept.length;
  // x = T ξ_kept + U u: the pivots' currents follow from the others at their node.
  const T = new Entries();
  const U = new Entries();
  kept.forEach((place, j) => {
    T.put(place, j, scale[place]!);
  });
  bare.forEach((node, b) => {
    const pivot = pivots[b]!;
    const g = free[node * N + pivot]!;
    kept.forEach((place, j) => {
      T.put(pivot, j, (-free[node * N + place]! / g) * scale[place]!);
    });
    for (let j = 0; j < p; j++) U.put(pivot, j, -drives[node * p + j]! / g);
  });

  // v over ξ, u and du/dt.
  const voltages = Int32Array.from({ length: M }, (_, i) => i);
  const Vx = new Float64Array(M * n);
  T.addAfter(Vx, n, voltage, wide, voltages);
  const Vu = new Float64Array(M * p);
  U.addAfter(Vu, p, voltage, wide, voltages);
  const Vd = new Float64Array(M * p);
  for (let i = 0; i < M; i++) {
    for (let j = 0; j < p; j++) {
      Vu[i * p + j]! += voltage[i * wide + N + j]!;
      Vd[i * p + j] = voltage[i * wide + N + p + j]!;
    }
  }

  const A = new Float64Array(n * n);
  const Bu = new Float64Array(n * p);
  kept.forEach((place, i) => {
    Bu.set(fu.subarray(place * p, (place + 1) * p), i * p);
  });
  const Bd = new Float64Array(n * p);
  const rows = Int32Array.from(kept);
  T.addAfter(A, n, slopes.fx, N, rows);
  U.addAfter(Bu, p, slopes.fx, N, rows);
  addOfFew(A, slopes.fv, rows, Vx, M, n);
  addOfFew(Bu, slopes.fv, rows, Vu, M, p);
  addOfFew(Bd, slopes.fv, rows, Vd, M, p);
  kept.forEach((place, i) => {
    const perScale = 1 / scale[place]!;
    for (let j = 0; j < n; j++) A[i * n + j]! *= perScale;
    for (let j = 0; j < p; j++) {
      Bu[i * p + j]! *= perScale;
      Bd[i * p + j]! *= perScale;
    }
  });
  const names = stateLabels(network);
  return {
    n,
    labels: kept.map((place) => names[place]!),
    A,
    inputs,
    B: inputs.map((_, j) => ({ value: column(Bu, n, p, j), slope: column(Bd, n, p, j) })),
    places: kept,
    read(cx, cv) {
      const c = new Float64Array(n);
      const d = new Float64Array(p);
      const e = new Float64Array(p);
      T.addFolded(c, cx);
      U.addFolded(d, cx);
      addOfFew(c, cv, first, Vx, M, n);
      addOfFew(d, cv, first, Vu, M, p);
      addOfFew(e, cv, first, Vd, M, p);
      return { c, d, e };
    },
    reduce(deviation) {
      return Float64Array.from(kept, (place) => deviation[place]! / scale[place]!);
    },
    expand(state) {
      const x = new Float64Array(N);
      const v = new Float64Array(M);
      T.addApplied(x, state);
      apply(v, Vx, state, M, n);
      return { x, v };
    },
  };
}

function bareNodes({ gv, nodes }: Jacobian): number[] {
  const bare: number[] = [];
  for (let n = 0; n < nodes; n++) if (Math.abs(gv[n * nodes + n]!) < shunt_S) bare.push(n);
  return bare;
}

/**
 * One state for each bare node that follows from the others there: a current that ends at no other bare node, or any one that is
 * then put into the rows of the others, so that of a chain of bare nodes each has a current of its own. `gx` and `drives`,
 * what inputs drive into each node, are reduced in place.
 */
function pivotsOf(
  { gx, states }: Pick<Jacobian, 'gx' | 'states'>,
  bare: readonly number[],
  { drives, width }: { readonly drives: Float64Array; readonly width: number },
): number[] {
  const pivots: number[] = [];
  for (const node of bare) {
    let best = -1;
    let isAlone = false;
    for (let j = 0; j < states; j++) {
      if (Math.abs(gx[node * states + j]!) < 0.5 || pivots.includes(j)) continue;
      const ends = bare.some((other) => other !== node && gx[other * states + j] !== 0);
      if (isAlone && ends) continue;
      isAlone = !ends;
      best = j;
    }
    if (best < 0) throw new RangeError(`no current is left to follow at bare node ${node}`);
    pivots.push(best);
    if (isAlone) continue;
    for (const other of bare) {
      const part = other === node ? 0 : gx[other * states + best]! / gx[node * states + best]!;
      if (part === 0) continue;
      for (let j = 0; j < states; j++) gx[other * states + j]! -= part * gx[node * states + j]!;
      for (let j = 0; j < width; j++) drives[other * width + j]! -= part * drives[node * width + j]!;
    }
  }
  return pivots;
}

/** States that something moves and that something follows, pivots left out. */
function keptStates({ fx, fv, gx, states, nodes }: Jacobian, pivots: readonly number[]): number[] {
  const kept: number[] = [];
  for (let j = 0; j < states; j++) {
    if (pivots.includes(j)) continue;
    let moved = false;
    let followed = false;
    for (let i = 0; i < states && !(moved && followed); i++) {
      if (fx[j * states + i] !== 0) moved = true;
      if (fx[i * states + j] !== 0) followed = true;
    }
    for (let i = 0; i < nodes && !(moved && followed); i++) {
      if (fv[j * nodes + i] !== 0) moved = true;
      if (gx[i * states + j] !== 0) followed = true;
    }
    if (moved && followed) kept.push(j);
  }
  return kept;
}

/** c += a b for the named rows of an a (`inner` wide) of which hardly a place is not nought, and b `columns` wide. */
function addOfFew(
  c: Float64Array,
  a: Float64Array,
  named: Int32Array,
  b: Float64Array,
  inner: number,
  columns: number,
): void {
  for (let i = 0; i < named.length; i++) {
    const to = i * columns;
    for (let k = 0; k < inner; k++) {
      const x = a[named[i]! * inner + k]!;
      const from = k * columns;
      if (x !== 0) for (let j = 0; j < columns; j++) c[to + j]! += x * b[from + j]!;
    }
  }
}

function column(a: Float64Array, rows: number, columns: number, j: number): Float64Array {
  const out = new Float64Array(rows);
  for (let i = 0; i < rows; i++) out[i] = a[i * columns + j]!;
  return out;
}
