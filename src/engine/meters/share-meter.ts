/**
 * How evenly the shelves on line share (tripped, clamped and walking-in ones are not asked to): the largest deviation of one shelf's current over
 * rated from the mean of all (per unit, so that shelves of unlike rating are asked for their parts), from 1 to 20 ms after an edge (transient, at every step) and later than 0.5 s after one (steady, every
 * millisecond or so: what stands for half a second is not missed).
 */
import type { Share } from '../../firmware/share/share.ts';
import type { Network } from '../../network/network.ts';
import type { ShareDeviation, ShareReading } from '../result.ts';

export class ShareMeter {
  private readonly network: Network;
  private readonly share: Share;
  private readonly tick_s: number;
  private edgeTick = Number.NEGATIVE_INFINITY;
  private lookAgainAt = Number.NEGATIVE_INFINITY;
  private readonly from: number;
  private readonly to: number;
  private readonly settled: number;
  /** Current of each shelf over rated; NaN of one that is not on line. */
  private readonly perUnit: Float64Array;
  private steady: { ratio: number; shelf: number; tick: number } | null = null;
  private transient: { ratio: number; shelf: number; tick: number } | null = null;

  constructor(network: Network, share: Share, tick_s: number) {
    this.network = network;
    this.share = share;
    this.tick_s = tick_s;
    this.from = Math.round(1e-3 / tick_s);
    this.to = Math.round(20e-3 / tick_s);
    this.settled = Math.round(0.5 / tick_s);
    this.perUnit = new Float64Array(network.shelfCount);
  }

  /** The load jumps or something happens. */
  edge(tick: number): void {
    this.edgeTick = tick;
  }

  take(tick: number, x: Float64Array): void {
    const since = tick - this.edgeTick;
    const steady = since > this.settled;
    if (steady) {
      if (tick < this.lookAgainAt) return;
      this.lookAgainAt = tick + this.from;
    } else if (since < this.from || since > this.to) return;
    const { stages } = this.network;
    const { share, perUnit } = this;
    let sum = 0;
    let count = 0;
    for (let k = 0; k < perUnit.length; k++) {
      const isOnLine = share.isOnLine(k);
      const i = isOnLine ? stages.perUnit(k, x) : Number.NaN;
      perUnit[k] = i;
      if (!isOnLine) continue;
      sum += i;
      count++;
    }
    if (count < 2) return;
    const mean = sum / count;
    let held = steady ? this.steady : this.transient;
    if (held === null) {
      held = { ratio: -1, shelf: 0, tick };
      if (steady) this.steady = held;
      else this.transient = held;
    }
    for (let k = 0; k < perUnit.length; k++) {
      const ratio = Math.abs(perUnit[k]! - mean);
      if (!(ratio > held.ratio)) continue;
      held.ratio = ratio;
      held.shelf = k;
      held.tick = tick;
    }
  }

  private read(held: { ratio: number; shelf: number; tick: number } | null): ShareDeviation | null {
    if (held === null) return null;
    const shelf = this.network.stages.names[held.shelf]!;
    return { ratio: held.ratio, shelf, time_s: held.tick * this.tick_s };
  }

  reading(): ShareReading {
    return { steady: this.read(this.steady), transient: this.read(this.transient) };
  }
}
