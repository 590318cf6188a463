/**
 * The equations of all devices, differentiated where they stand: central differences of the same `flow` and
 * `inject` that the engine steps. Most of them are straight lines, for which the difference is exact to
 * rounding; the rest bend so little over the step that the error stays below 1e-8 of the slope.
 */
import type { Network } from '../network/network.ts';

/** Step of a difference over the size of its variable. */
export const differenceStep = 1e-5;

/** Slopes: f over x and v (states × …), g over x and v (nodes × …), all flat rows. */
export interface Jacobian {
  readonly states: number;
  readonly nodes: number;
  readonly fx: Float64Array;
  readonly fv: Float64Array;
  readonly gx: Float64Array;
  readonly gv: Float64Array;
}

/** Derivatives of all states at x and v into `dx`. */
export function flowAll(dx: Float64Array, network: Network, x: Float64Array, v: Float64Array): void {
  for (const device of network.devices) device.guide(x, v);
  for (const device of network.devices) device.flow(dx, x, v);
}

export function injectAll(into: Float64Array, network: Network, x: Float64Array, v: Float64Array): void {
  into.fill(0);
  for (const device of network.devices) device.inject(into, x, v);
}

/** Slope of `evaluate`'s outcome over one variable, by a central difference. */
export function slopeOf(
  value: Float64Array,
  place: number,
  size: number,
  evaluate: (out: Float64Array) => void,
  out: Float64Array,
  scratch: Float64Array,
): void {
  const at = value[place]!;
  const d = differenceStep * Math.max(Math.abs(at), size);
  const above = at + d;
  const below = at - d;
  value[place] = above;
  evaluate(out);
  value[place] = below;
  evaluate(scratch);
  value[place] = at;
  for (let k = 0; k < out.length; k++) out[k] = (out[k]! - scratch[k]!) / (above - below);
}

export function differentiate(
  network: Network,
  x: Float64Array,
  v: Float64Array,
  scale: Float64Array,
): Jacobian {
  const n = network.stateCount;
  const m = network.nodeCount;
  const slopes: Jacobian = {
    states: n,
    nodes: m,
    fx: new Float64Array(n * n),
    fv: new Float64Array(n * m),
    gx: new Float64Array(m * n),
    gv: new Float64Array(m * m),
  };
  const f = new Float64Array(n);
  const f2 = new Float64Array(n);
  const g = new Float64Array(m);
  const g2 = new Float64Array(m);
  const flow = (out: Float64Array): void => flowAll(out, network, x, v);
  const inject = (out: Float64Array): void => injectAll(out, network, x, v);
  for (let j = 0; j < n; j++) {
    slopeOf(x, j, scale[j]!, flow, f, f2);
    for (let i = 0; i < n; i++) slopes.fx[i * n + j] = f[i]!;
    slopeOf(x, j, scale[j]!, inject, g, g2);
    for (let i = 0; i < m; i++) slopes.gx[i * n + j] = g[i]!;
  }
  for (let j = 0; j < m; j++) {
    slopeOf(v, j, 1, flow, f, f2);
    for (let i = 0; i < n; i++) slopes.fv[i * m + j] = f[i]!;
    slopeOf(v, j, 1, inject, g, g2);
    for (let i = 0; i < m; i++) slopes.gv[i * m + j] = g[i]!;
  }
  flow(f);
  return slopes;
}
