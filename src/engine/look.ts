/** What every step costs those who look on: read the channels, fill the leaf, feed mean squares, audit and stays. */
import type { Int } from '../base/int.ts';
import type { Gauge } from './gauge.ts';
import type { AuditMeter } from './meters/audit.ts';
import type { MeanSquareMeter } from './meters/mean-square.ts';
import type { StayMeter } from './meters/stay-meter.ts';
import type { Zigzag } from './meters/zigzag.ts';
import type { Leaves } from './record/leaves.ts';
import type { Step } from './step.ts';

/** What a look has seen, as bits: a node has crossed a level of its stays; a channel has turned. */
export const seen = { crossed: 1, turned: 2 } as const;

export interface Lookers {
  readonly gauge: Gauge;
  readonly leaves: Leaves;
  readonly meanSquares: MeanSquareMeter;
  readonly stays: StayMeter;
  readonly audit: AuditMeter;
  readonly zigzag: Zigzag;
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
   * Looks at the step just taken, before it is accepted: `ticks` long, up to `tick1`. Mean squares and audit take it
   * when it is judged. Returns bits of `seen`.
   */
  take(ticks: number, tick1: number, judged: boolean, smoothed_W: number): Int {
    const { ends } = this.step;
    const { x1, v1 } = ends;
    const { gauge, leaves, meanSquares, stays, audit, zigzag } = this.lookers;
    gauge.read(x1, v1, smoothed_W);
    leaves.add(tick1, gauge.values);
    if (!judged) return 0;
    meanSquares.feed(ticks, gauge.values);
    audit.take(ticks, ends, gauge.values);
    const crossed: Int = stays.isCrossed(v1) ? seen.crossed : 0;
    const turned: Int = zigzag.follow(tick1, gauge.values) ? seen.turned : 0;
    return crossed + turned;
  }
}
