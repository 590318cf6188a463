/**
 * The equations of all devices, differentiated where they stand: central differences of the same `flow` and
 * `inject` that the engine steps. Most of them are straight lines, for which the difference is exact to
 * rounding; the rest bend so little over the step that the error stays below 1e-8 of the slope.
 */
import type { Network } from '../network/network.ts';
import { slopeOf, stepAt } from './difference.ts';
import { FollowersAt, flowOf, injectAll } from './followers.ts';

/** Slopes: f over x and v (states × …), g over x and v (nodes × …), all flat rows. */
export interface Jacobian {
  readonly states: number;
  readonly nodes: number;
  readonly fx: Float64Array;
  readonly fv: Float64Array;
  readonly gx: Float64Array;
  readonly gv: Float64Array;
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
  const point = { network, x, v };
  const followers = new FollowersAt(point);
  const [f, f2] = [new Float64Array(n), new Float64Array(n)];
  const [g, g2] = [new Float64Array(m), new Float64Array(m)];
  /** Columns `from` up to `end`, all followed by the same kinds. */
  const over = (value: Float64Array, from: number, end: number, size: (place: number) => number): void => {
    if (from === end) return;
    const [ofStates, ofNodes, width] = value === x ? [slopes.fx, slopes.gx, n] : [slopes.fv, slopes.gv, m];
    const { flow, isCurrentMoved } = followers.of(value, from, end, (j) => stepAt(value[j]!, size(j)));
    for (let j = from; j < end; j++) {
      slopeOf(value, j, size(j), (out) => flowOf(out, flow, point), f, f2);
      setColumn(ofStates, width, j, f);
      if (!isCurrentMoved) continue;
      slopeOf(value, j, size(j), (out) => injectAll(out, point), g, g2);
      setColumn(ofNodes, width, j, g);
    }
  };
  for (const { offset, count, states } of network.devices)
    over(x, offset, offset + count * states.length, (j) => scale[j]!);
  over(v, 0, m, () => 1);
  flowOf(f, network.devices, point);
  return slopes;
}

/** Writes what of a column is not nought: hardly any is. */
function setColumn(rows: Float64Array, width: number, column: number, values: Float64Array): void {
  for (let i = 0; i < values.length; i++) if (values[i] !== 0) rows[i * width + column] = values[i]!;
}
