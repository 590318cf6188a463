/**
 * Nodes on which nothing but inductors end: their currents sum to zero at all times, so one of them at each node follows from
 * the others and is no state of its own.
 */
import { Entries } from './entries.ts';
import type { Jacobian } from './jacobian.ts';
import type { PlantInput } from './plant-input.ts';

/** Smallest slope of a node's current that counts as a shunt [S]. */
const shunt_S = 1e-3;

export function bareNodes({ gv, nodes }: Jacobian): number[] {
  const own = new Float64Array(nodes);
  gv.each((row, column, slope) => {
    if (row === column) own[row] = slope;
  });
  return [...own.keys()].filter((n) => Math.abs(own[n]!) < shunt_S);
}

/** What drives into bare nodes: rows over the states, and over the currents of inputs. */
export interface IntoBare {
  readonly free: Float64Array;
  readonly drives: Float64Array;
}

export function intoBare(
  { gx, states, nodes }: Jacobian,
  bare: readonly number[],
  inputs: readonly PlantInput[],
): IntoBare {
  const free = new Float64Array(nodes * states);
  gx.each((row, j, slope) => {
    if (bare.includes(row)) free[row * states + j] = slope;
  });
  const drives = new Float64Array(nodes * inputs.length);
  inputs.forEach((input, j) => {
    if (input.kind === 'current' && bare.includes(input.node)) drives[input.node * inputs.length + j] = 1;
  });
  return { free, drives };
}

/**
 * One state for each bare node that follows from the others there: a current that ends at no other bare node, or any one that is
 * then put into the rows of the others, so that of a chain of bare nodes each has a current of its own. `gx` and `drives`,
 * what inputs drive into each node, are reduced in place.
 */
export function pivotsOf(
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

/** x = T ξ_kept + U u: the pivots' currents follow from the others at their node. */
export function withPivots(
  kept: readonly number[],
  scale: Float64Array,
  bare: readonly number[],
  pivots: readonly number[],
  { free, drives }: IntoBare,
  { states, inputs }: { readonly states: number; readonly inputs: number },
): { readonly T: Entries; readonly U: Entries } {
  const T = new Entries();
  const U = new Entries();
  for (const place of kept) {
    T.put(place, scale[place]!);
    bare.forEach((node, b) => {
      const pivot = pivots[b]!;
      T.put(pivot, (-free[node * states + place]! / free[node * states + pivot]!) * scale[place]!);
    });
    T.end();
  }
  for (let j = 0; j < inputs; j++) {
    bare.forEach((node, b) => {
      const pivot = pivots[b]!;
      U.put(pivot, -drives[node * inputs + j]! / free[node * states + pivot]!);
    });
    U.end();
  }
  return { T, U };
}
