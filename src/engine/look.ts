/** What every step costs those who look on: the kernel's part of the recorder and of every meter that takes each step. */
import type { Int } from '../base/int.ts';
import type { Gauge } from './gauge.ts';
import type { AuditMeter } from './meters/audit.ts';
import type { Bins } from './meters/bins.ts';
import type { LimitMeter } from './meters/limit-meter.ts';
import type { MeanSquareMeter } from './meters/mean-square.ts';
import type { ShareMeter } from './meters/share-meter.ts';
import type { StayMeter } from './meters/stay-meter.ts';
import type { StreamMeter } from './meters/streams.ts';
import type { Zigzag } from './meters/zigzag.ts';
import type { Closing } from './record/closing.ts';
import { figure, type Step } from './step.ts';

/**
 * What a look has seen, as bits, each for somebody who has nothing to do otherwise: a node has crossed a level of its
 * stays; a channel has turned; the open leaf was full, and the next one is open; a limit holds or has come or gone; means over windows
 * are finished; samples of streams are made; the load has turned.
 */
export const seen = {
  crossed: 1,
  turned: 2,
  full: 4,
  limited: 8,
  windowed: 16,
  sampled: 32,
  loadTurned: 64,
} as const;

export interface Lookers {
  readonly gauge: Gauge;
  readonly closing: Closing;
  readonly limits: LimitMeter;
  readonly meanSquares: MeanSquareMeter;
  readonly stays: StayMeter;
  readonly audit: AuditMeter;
  readonly zigzag: Zigzag;
  /** Of the load. */
  readonly loadZigzag: Zigzag;
  /** Of the windows' means. */
  readonly windows: Bins;
  readonly streams: StreamMeter;
  readonly share: ShareMeter;
}

export class Look {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly step: Step;
  readonly lookers: Lookers;

  constructor(step: Step, lookers: Lookers) {
    this.step = step;
    this.lookers = lookers;
  }

  /**
   * Looks at the step just taken, before it is accepted, from `tick0` to `tick1`. Recorder and limits take every step,
   * the others those that are judged. Returns bits of `seen`.
   */
  take(tick0: number, tick1: number, judged: boolean, smoothed_W: number): Int {
    const { ends, network, figures } = this.step;
    const { x1, v1 } = ends;
    const { gauge, closing, limits, meanSquares, stays, audit, zigzag, loadZigzag, windows, streams, share } =
      this.lookers;
    gauge.read(x1, v1, smoothed_W);
    const { values } = gauge;
    const full: Int = closing.add(tick1, values, judged) ? seen.full : 0;
    const limited: Int = limits.isMoved(x1) ? seen.limited : 0;
    if (!judged) return full + limited;
    const ticks = tick1 - tick0;
    meanSquares.feed(ticks, values);
    audit.take(figures[figure.lead]!, figures[figure.weight]!, ends, values);
    share.take(tick1, x1);
    const crossed: Int = stays.isCrossed(v1) ? seen.crossed : 0;
    const turned: Int = zigzag.follow(tick1, values) ? seen.turned : 0;
    const loadTurned: Int = loadZigzag.follow(tick1, network.sleds.demand1_W) ? seen.loadTurned : 0;
    const windowed: Int = windows.feed(tick0, tick1, values) > 0 ? seen.windowed : 0;
    const sampled: Int = streams.feed(tick0, tick1, values) > 0 ? seen.sampled : 0;
    return full + limited + crossed + turned + loadTurned + windowed + sampled;
  }
}
