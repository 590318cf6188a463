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

import type { Cabinet } from '../engine/cabinet.ts';
import { bareNodes, intoBare, pivotsOf, withPivots } from './bare-nodes.ts';
import { Differences } from './difference.ts';
import { Entries } from './entries.ts';
import { flowOf } from './followers.ts';
import { differentiate, type Jacobian } from './jacobian.ts';
import { stateLabels, stateScales } from './labels.ts';
import type { PlantInput } from './plant-input.ts';
import { NodeColumn, voltageRows } from './voltage-rows.ts';

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
  const into = intoBare(slopes, bare, inputs);
  const voltage = voltageRows(slopes, fu, inputs, bare, into);
  const pivots = pivotsOf({ gx: into.free, states: N }, bare, { drives: into.drives, width: p });
  const kept = keptStates(slopes, pivots);
  const n = kept.length;
  const { T, U } = withPivots(kept, scale, bare, pivots, into, { states: N, inputs: p });

  // v over ξ, u and du/dt.
  const [Vx, Vu, Vd] = [new Entries(), new Entries(), new Entries()];
  const nodes = new NodeColumn(voltage, M, N + 2 * p);
  for (let j = 0; j < n; j++) {
    T.eachIn(j, (column, f) => nodes.add(column, f));
    nodes.end(Vx);
  }
  for (let j = 0; j < p; j++) {
    U.eachIn(j, (column, f) => nodes.add(column, f));
    nodes.add(N + j, 1);
    nodes.end(Vu);
    nodes.add(N + p + j, 1);
    nodes.end(Vd);
  }

  const A = new Float64Array(n * n);
  const flow = new Float64Array(N);
  for (let j = 0; j < n; j++) {
    slopes.fx.addProduct(flow, T, j);
    slopes.fv.addProduct(flow, Vx, j);
    const slope = takeScaled(flow, kept, scale);
    for (let i = 0; i < n; i++) A[i * n + j] = slope[i]!;
  }
  const B = inputs.map((_, j) => {
    fu.addColumn(flow, j, 1);
    slopes.fx.addProduct(flow, U, j);
    slopes.fv.addProduct(flow, Vu, j);
    const value = takeScaled(flow, kept, scale);
    slopes.fv.addProduct(flow, Vd, j);
    return { value, slope: takeScaled(flow, kept, scale) };
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

/** What has been added to the derivatives of the states that are kept, over their size; `flow` begins anew. */
function takeScaled(flow: Float64Array, kept: readonly number[], scale: Float64Array): Float64Array {
  const out = new Float64Array(kept.length);
  for (let i = 0; i < out.length; i++) {
    const value = flow[kept[i]!]!;
    if (value !== 0) out[i] = value * (1 / scale[kept[i]!]!);
  }
  flow.fill(0);
  return out;
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
