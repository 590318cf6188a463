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

import { solveInPlace } from '../dense/dense.ts';
import type { Cabinet } from '../engine/cabinet.ts';
import { Differences } from './difference.ts';
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
  const fu = driven(cabinet, inputs);

  const bare = bareNodes(slopes);
  // What drives into bare nodes: rows over x, and over currents of inputs.
  const free = new Float64Array(M * N);
  slopes.gx.each((row, j, slope) => {
    if (bare.includes(row)) free[row * N + j] = slope;
  });
  const drives = new Float64Array(M * p);
  inputs.forEach((input, j) => {
    if (input.kind === 'current' && bare.includes(input.node)) drives[input.node * p + j] = 1;
  });
  // Rows of [v] = −(x, u, du/dt): width N + 2 p.
  const wide = N + 2 * p;
  const lhs = new Float64Array(M * M);
  const rhs = new Float64Array(M * wide);
  slopes.gv.each((row, j, slope) => {
    if (!bare.includes(row)) lhs[row * M + j] = slope;
  });
  slopes.gx.each((row, j, slope) => {
    if (!bare.includes(row)) rhs[row * wide + j] = -slope;
  });
  inputs.forEach((input, j) => {
    if (input.kind === 'current' && !bare.includes(input.node)) rhs[input.node * wide + N + j] = -1;
  });
  for (const n of bare) {
    const row = free.subarray(n * N, (n + 1) * N);
    const overX = new Float64Array(N);
    const overU = new Float64Array(p);
    slopes.fv.addFolded(lhs.subarray(n * M, (n + 1) * M), row);
    slopes.fx.addFolded(overX, row);
    fu.addFolded(overU, row);
    for (let j = 0; j < N; j++) rhs[n * wide + j] = -overX[j]!;
    for (let j = 0; j < p; j++) {
      rhs[n * wide + N + j] = -overU[j]!;
      rhs[n * wide + N + p + j] = -drives[n * p + j]!;
    }
  }
  solveInPlace(lhs, rhs, M, wide);
  const voltage = rhs;

  const pivots = pivotsOf({ gx: free, states: N }, bare, { drives, width: p });
  const kept = keptStates(slopes, pivots);
  const n = kept.length;
  // x = T ξ_kept + U u: the pivots' currents follow from the others at their node.
  const T = new Entries();
  const U = new Entries();
  for (const place of kept) {
    T.put(place, scale[place]!);
    bare.forEach((node, b) => {
      const pivot = pivots[b]!;
      T.put(pivot, (-free[node * N + place]! / free[node * N + pivot]!) * scale[place]!);
    });
    T.end();
  }
  for (let j = 0; j < p; j++) {
    bare.forEach((node, b) => {
      const pivot = pivots[b]!;
      U.put(pivot, -drives[node * p + j]! / free[node * N + pivot]!);
    });
    U.end();
  }

  // v over ξ, u and du/dt.
  const Vx = new Entries();
  const Vu = new Entries();
  const Vd = new Entries();
  const nodes = new Float64Array(M);
  const endNodes = (V: Entries): void => {
    nodes.forEach((value, i) => {
      V.put(i, value);
    });
    V.end();
    nodes.fill(0);
  };
  const addVoltages = (column: number, f: number): void => {
    for (let i = 0; i < M; i++) nodes[i]! += voltage[i * wide + column]! * f;
  };
  for (let j = 0; j < n; j++) {
    T.eachIn(j, addVoltages);
    endNodes(Vx);
  }
  for (let j = 0; j < p; j++) {
    U.eachIn(j, addVoltages);
    addVoltages(N + j, 1);
    endNodes(Vu);
    addVoltages(N + p + j, 1);
    endNodes(Vd);
  }

  const A = new Float64Array(n * n);
  const flow = new Float64Array(N);
  const perScale = kept.map((place) => 1 / scale[place]!);
  /** What has been added to the derivatives of the states that are kept, over their size. */
  const taken = (take: (i: number, value: number) => void): void => {
    for (let i = 0; i < n; i++) {
      const value = flow[kept[i]!]!;
      if (value !== 0) take(i, value * perScale[i]!);
    }
    flow.fill(0);
  };
  for (let j = 0; j < n; j++) {
    slopes.fx.addProduct(flow, T, j);
    slopes.fv.addProduct(flow, Vx, j);
    taken((i, value) => {
      A[i * n + j] = value;
    });
  }
  const column = (): Float64Array => {
    const out = new Float64Array(n);
    taken((i, value) => {
      out[i] = value;
    });
    return out;
  };
  const B = inputs.map((_, j) => {
    fu.addColumn(flow, j, 1);
    slopes.fx.addProduct(flow, U, j);
    slopes.fv.addProduct(flow, Vu, j);
    const value = column();
    slopes.fv.addProduct(flow, Vd, j);
    return { value, slope: column() };
  });
  const names = stateLabels(network);
  return {
    n,
    labels: kept.map((place) => names[place]!),
    A,
    inputs,
    B,
    places: kept,
    read(cx, cv) {
      const c = new Float64Array(n);
      const d = new Float64Array(p);
      const e = new Float64Array(p);
      T.addFolded(c, cx);
      U.addFolded(d, cx);
      Vx.addFolded(c, cv);
      Vu.addFolded(d, cv);
      Vd.addFolded(e, cv);
      return { c, d, e };
    },
    reduce(deviation) {
      return Float64Array.from(kept, (place) => deviation[place]! / scale[place]!);
    },
    expand(state) {
      const x = new Float64Array(N);
      const v = new Float64Array(M);
      T.addApplied(x, state);
      Vx.addApplied(v, state);
      return { x, v };
    },
  };
}

/** Slopes of the derivatives over the inputs that stand somewhere as a value, a column for each input. */
function driven({ network, stepper }: Cabinet, inputs: readonly PlantInput[]): Entries {
  const out = new Entries();
  const differences = new Differences(network.stateCount);
  const point = { network, x: stepper.x0, v: stepper.v0 };
  const everywhere = Array.from({ length: network.stateCount }, (_, k) => k);
  for (const input of inputs) {
    if (input.kind === 'value') {
      const { target, place } = input;
      differences.over(
        target,
        place,
        Math.max(1e-3, Math.abs(target[place]!)),
        (dx) => flowOf(dx, network.devices, point),
        everywhere,
        (i, slope) => out.put(i, slope),
      );
    }
    out.end();
  }
  return out;
}

function bareNodes({ gv, nodes }: Jacobian): number[] {
  const own = new Float64Array(nodes);
  gv.each((row, column, slope) => {
    if (row === column) own[row] = slope;
  });
  return [...own.keys()].filter((n) => Math.abs(own[n]!) < shunt_S);
}

/**
 * One state for each bare node that follows from the others there: a current that ends at no other bare node, or any one that is
 * then put into the rows of the others, so that of a chain of bare nodes each has a current of its own. `gx` and `drives`,
 * what inputs drive into each node, are reduced in place.
 */
function pivotsOf(
  { gx, states }: { readonly gx: Float64Array; readonly states: number },
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
function keptStates({ fx, fv, gx, states }: Jacobian, pivots: readonly number[]): number[] {
  const moved = new Uint8Array(states);
  const followed = new Uint8Array(states);
  fx.each((row, column) => {
    moved[row] = 1;
    followed[column] = 1;
  });
  fv.each((row) => {
    moved[row] = 1;
  });
  gx.each((_, column) => {
    followed[column] = 1;
  });
  return [...moved.keys()].filter((j) => moved[j] === 1 && followed[j] === 1 && !pivots.includes(j));
}
