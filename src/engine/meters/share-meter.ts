/**
 * How evenly the shelves on line share (tripped, clamped and walking-in ones are not asked to): the largest deviation of one shelf's current over
 * rated from the mean of all (per unit, so that shelves of unlike rating are asked for their parts), from 1 to 20 ms after an edge (transient, at every step) and later than 0.5 s after one (steady, every
 * millisecond or so: what stands for half a second is not missed).
 */
import type { Int } from '../../base/int.ts';
import type { Stages } from '../../devices/stage/stage.ts';
import type { ShelfGroup } from '../../firmware/share/shelf-group.ts';
import type { Network } from '../../network/network.ts';
import type { ShareDeviation, ShareReading } from '../result.ts';

/** Places of the two largest deviations. */
const held = { transient: 0, steady: 1 } as const;

export class ShareMeter {
  private readonly stages: Stages;
  private readonly shelfCount: Int;
  private readonly sharing: ShelfGroup;
  private readonly tick_s: number;
  private readonly from: number;
  private readonly to: number;
  private readonly settled: number;
  /** Tick of the last edge, and from which on a steady look is due again. */
  private readonly edgeTick: Float64Array;
  private readonly lookAgainAt: Float64Array;
  /** Current of each shelf on line over rated. */
  private readonly isOnLine: Uint8Array;
  private readonly perUnit: Float64Array;
  /** The two largest deviations: 1 where it was looked for, how far, of which shelf, at which tick. */
  private readonly isLooked: Uint8Array;
  private readonly ratio: Float64Array;
  private readonly shelf: Int32Array;
  private readonly tick: Float64Array;

  constructor({ stages, shelfCount }: Network, sharing: ShelfGroup, tick_s: number) {
    this.stages = stages;
    this.shelfCount = shelfCount;
    this.sharing = sharing;
    this.tick_s = tick_s;
    this.from = Math.round(1e-3 / tick_s);
    this.to = Math.round(20e-3 / tick_s);
    this.settled = Math.round(0.5 / tick_s);
    this.edgeTick = Float64Array.of(Number.NEGATIVE_INFINITY);
    this.lookAgainAt = Float64Array.of(Number.NEGATIVE_INFINITY);
    this.isOnLine = new Uint8Array(shelfCount);
    this.perUnit = new Float64Array(shelfCount);
    this.isLooked = new Uint8Array(2);
    this.ratio = new Float64Array(2).fill(-1);
    this.shelf = new Int32Array(2);
    this.tick = new Float64Array(2);
  }

  /** The load jumps or something happens. */
  edge(tick: number): void {
    this.edgeTick[0] = tick;
  }

  /** Takes the shelves' currents at the end of a step, where the states are x. */
  take(tick: number, x: Float64Array): void {
    const { from, to, settled, edgeTick, lookAgainAt } = this;
    const since = tick - edgeTick[0]!;
    if (since > settled) {
      if (tick < lookAgainAt[0]!) return;
      lookAgainAt[0] = tick + from;
      this.look(held.steady, tick, x);
    } else if (since >= from && since <= to) this.look(held.transient, tick, x);
  }

  private look(which: Int, tick: number, x: Float64Array): void {
    const { shelfCount, stages, sharing, isOnLine, perUnit, isLooked, ratio } = this;
    let sum = 0;
    let count: Int = 0;
    for (let k: Int = 0; k < shelfCount; k++) {
      isOnLine[k] = sharing.isOnLine(k) ? 1 : 0;
      if (isOnLine[k] === 0) continue;
      perUnit[k] = stages.perUnit(k, x);
      sum += perUnit[k]!;
      count++;
    }
    if (count < 2) return;
    const mean = sum / count;
    if (isLooked[which] === 0) this.tick[which] = tick;
    isLooked[which] = 1;
    for (let k: Int = 0; k < shelfCount; k++) {
      if (isOnLine[k] === 0) continue;
      const off = Math.abs(perUnit[k]! - mean);
      if (!(off > ratio[which]!)) continue;
      ratio[which] = off;
      this.shelf[which] = k;
      this.tick[which] = tick;
    }
  }

  private read(which: number): ShareDeviation | null {
    if (this.isLooked[which] === 0) return null;
    const shelf = this.stages.names[this.shelf[which]!]!;
    return { ratio: this.ratio[which]!, shelf, time_s: this.tick[which]! * this.tick_s };
  }

  reading(): ShareReading {
    return { steady: this.read(held.steady), transient: this.read(held.transient) };
  }
}
