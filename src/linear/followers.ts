/**
 * Which kinds' equations follow some of the states or voltages: those are moved at once, up and down, and a kind that gives
 * what it gave before follows none of them. Of the others no slope need be taken.
 */
import type { Device } from '../devices/device.ts';
import type { Network } from '../network/network.ts';
import { moveUnlike } from './movers.ts';

/** The equations about a point: its states and node voltages may be moved. */
export interface Point {
  readonly network: Network;
  readonly x: Float64Array;
  readonly v: Float64Array;
}

export interface Followers {
  /** Kinds whose derivatives do. */
  readonly flow: readonly Device[];
  /** Whether a current into a node does. */
  readonly isCurrentMoved: boolean;
}

/** Derivatives of the states at a point that these kinds write or add to; nought elsewhere. Kinds are guided by all. */
export function flowOf(dx: Float64Array, devices: readonly Device[], point: Point): void {
  guideAll(point);
  flowGuided(dx, devices, point);
}

function guideAll({ network, x, v }: Point): void {
  for (const device of network.devices) device.guide(x, v);
}

function flowGuided(dx: Float64Array, devices: readonly Device[], { x, v }: Point): void {
  dx.fill(0);
  for (const device of devices) device.flow(dx, x, v);
}

/** What all kinds drive into the nodes at a point. */
export function injectAll(into: Float64Array, { network, x, v }: Point): void {
  into.fill(0);
  for (const device of network.devices) device.inject(into, x, v);
}

/** Of places `from` up to `end` of `value`, states or voltages of the point, each moved by about its own step. */
export function followersOf(
  point: Point,
  value: Float64Array,
  from: number,
  end: number,
  step: (place: number) => number,
): Followers {
  const { devices, stateCount, nodeCount } = point.network;
  const at = value.slice(from, end);
  const shown = (sign: number): { flow: Float64Array[]; inject: Float64Array } => {
    for (let j = from; j < end; j++) value[j]! += sign * moveUnlike(j) * step(j);
    guideAll(point);
    const seen = {
      flow: devices.map((device) => filled(stateCount, (dx) => flowGuided(dx, [device], point))),
      inject: filled(nodeCount, (into) => injectAll(into, point)),
    };
    value.set(at, from);
    return seen;
  };
  const [still, ...moved] = [shown(0), shown(1), shown(-1)] as const;
  return {
    flow: devices.filter((_, d) => moved.some(({ flow }) => differ(flow[d]!, still.flow[d]!))),
    isCurrentMoved: moved.some(({ inject }) => differ(inject, still.inject)),
  };
}

function filled(count: number, fill: (out: Float64Array) => void): Float64Array {
  const out = new Float64Array(count);
  fill(out);
  return out;
}

function differ(a: Float64Array, b: Float64Array): boolean {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return true;
  return false;
}
