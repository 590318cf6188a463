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

/** Tells followers at one point; keeps what every kind gives there. */
export class FollowersAt {
  private readonly point: Point;
  /** What each kind gives at the point, one after the other; then what all drive into the nodes. */
  private readonly still: Float64Array;
  private readonly scratch: Float64Array;
  /** Kinds whose part of `scratch` differs; the last one stands for the nodes. */
  private readonly moved: Uint8Array;

  constructor(point: Point) {
    const { devices, stateCount, nodeCount } = point.network;
    this.point = point;
    this.scratch = new Float64Array(devices.length * stateCount + nodeCount);
    this.moved = new Uint8Array(devices.length + 1);
    this.show();
    this.still = this.scratch.slice();
  }

  /** Of places `from` up to `end` of `value`, states or voltages of the point, each moved by about its own step. */
  of(value: Float64Array, from: number, end: number, step: (place: number) => number): Followers {
    const { devices } = this.point.network;
    const at = value.slice(from, end);
    this.moved.fill(0);
    for (const sign of [1, -1]) {
      for (let j = from; j < end; j++) value[j]! += sign * moveUnlike(j) * step(j);
      this.show();
      value.set(at, from);
      this.compare();
    }
    return {
      flow: devices.filter((_, d) => this.moved[d] === 1),
      isCurrentMoved: this.moved[devices.length] === 1,
    };
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
    const { stateCount } = this.point.network;
    for (let d = 0; d < moved.length; d++) {
      const end = Math.min((d + 1) * stateCount, scratch.length);
      for (let k = d * stateCount; k < end && moved[d] === 0; k++) if (scratch[k] !== still[k]) moved[d] = 1;
    }
  }
}
