/**
 * The equations of all devices, differentiated where they stand: central differences of the same `flow` and
 * `inject` that the engine steps. Most of them are straight lines, for which the difference is exact to
 * rounding; the rest bend so little over the step that the error stays below 1e-8 of the slope.
 */
import type { Network } from '../network/network.ts';
import { Differences, stepAt } from './difference.ts';
import { Entries } from './entries.ts';
import { FollowersAt, flowOf, injectAll } from './followers.ts';

/** Slopes: f over x and v (states × …), g over x and v (nodes × …). */
export interface Jacobian {
  readonly states: number;
  readonly nodes: number;
  readonly fx: Entries;
  readonly fv: Entries;
  readonly gx: Entries;
  readonly gv: Entries;
}

export function differentiate(
  network: Network,
  x: Float64Array,
  v: Float64Array,
  scale: Float64Array,
): Jacobian {
  const n = network.stateCount;
  const m = network.nodeCount;
  const [fx, fv, gx, gv] = [new Entries(), new Entries(), new Entries(), new Entries()];
  const point = { network, x, v };
  const followers = new FollowersAt(point);
  const [ofStates, ofNodes] = [new Differences(n), new Differences(m)];
  /** Columns `from` up to `end`, all followed by the same kinds at the same places. */
  const over = (value: Float64Array, from: number, end: number, size: (place: number) => number): void => {
    if (from === end) return;
    const [f, g] = value === x ? [fx, gx] : [fv, gv];
    const { flow, states, nodes } = followers.of(value, from, end, (j) => stepAt(value[j]!, size(j)));
    const putState = (i: number, slope: number): void => f.put(i, slope);
    const putNode = (i: number, slope: number): void => g.put(i, slope);
    for (let j = from; j < end; j++) {
      if (states.length > 0)
        ofStates.over(value, j, size(j), (out) => flowOf(out, flow, point), states, putState);
      f.end();
      if (nodes.length > 0) ofNodes.over(value, j, size(j), (out) => injectAll(out, point), nodes, putNode);
      g.end();
    }
  };
  for (const { offset, count, states } of network.devices)
    for (let s = 0; s < states.length; s++)
      over(x, offset + s * count, offset + (s + 1) * count, (j) => scale[j]!);
  over(v, 0, m, () => 1);
  // What kinds keep of a point is that of this one again.
  flowOf(new Float64Array(n), network.devices, point);
  return { states: n, nodes: m, fx, fv, gx, gv };
}
