/**
 * Which kinds' equations follow some of the states or voltages, and where: those are moved at once, up and down, and a kind that
 * gives what it gave before follows none of them. Of the others, and of other places, no slope need be taken.
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
  /** States whose derivatives do, and nodes the currents into which do; ascending. */
  readonly states: readonly number[];
  readonly nodes: readonly number[];
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

/** Tells followers at one point; keeps what every kind gives there. */
export class FollowersAt {
  private readonly point: Point;
  /** What each kind gives at the point, one after the other; then what all drive into the nodes. */
  private readonly still: Float64Array;
  private readonly scratch: Float64Array;
  /** Places of `scratch` that differ. */
  private readonly moved: Uint8Array;

  constructor(point: Point) {
    const { devices, stateCount, nodeCount } = point.network;
    this.point = point;
    this.scratch = new Float64Array(devices.length * stateCount + nodeCount);
    this.moved = new Uint8Array(this.scratch.length);
    this.show();
    this.still = this.scratch.slice();
  }

  /** Of places `from` up to `end` of `value`, states or voltages of the point, each moved by about its own step. */
  of(value: Float64Array, from: number, end: number, step: (place: number) => number): Followers {
    const { devices, stateCount } = this.point.network;
    const at = value.slice(from, end);
    this.moved.fill(0);
    for (const sign of [1, -1]) {
      for (let j = from; j < end; j++) value[j]! += sign * moveUnlike(j) * step(j);
      this.show();
      value.set(at, from);
      this.compare();
    }
    const flow: Device[] = [];
    const states = new Set<number>();
    devices.forEach((device, d) => {
      const found = this.movedWithin(d * stateCount, (d + 1) * stateCount);
      if (found.length > 0) flow.push(device);
      for (const k of found) states.add(k);
    });
    const nodes = this.movedWithin(devices.length * stateCount, this.moved.length);
    return { flow, states: [...states].sort((a, b) => a - b), nodes };
  }

  private show(): void {
    const { point, scratch } = this;
    const { devices, stateCount } = point.network;
    guideAll(point);
    devices.forEach((device, d) => {
      flowGuided(scratch.subarray(d * stateCount, (d + 1) * stateCount), [device], point);
    });
    injectAll(scratch.subarray(devices.length * stateCount), point);
  }

  private compare(): void {
    const { scratch, still, moved } = this;
    for (let k = 0; k < moved.length; k++) if (scratch[k] !== still[k]) moved[k] = 1;
  }

  /** Places that differ, counted from `from`. */
  private movedWithin(from: number, end: number): number[] {
    const found: number[] = [];
    for (let k = this.moved.indexOf(1, from); k >= 0 && k < end; k = this.moved.indexOf(1, k + 1))
      found.push(k - from);
    return found;
  }
}
