/**
 * What goes on at the end of a run may not be what was there before an event. Mean and RMS from the beginning of later
 * and later rounds of the load to the window's end tell the two apart, at the cost of a copy of the running sums at each
 * round. However long the run, at most `most` rounds are kept: then every second one goes, and only every second comes.
 */
import type { RoundSquares } from '../result.ts';
import type { MeanSquareMeter, SumsSoFar } from './mean-square.ts';

/** Rounds kept. */
const most = 64;

interface KeptRound {
  readonly tick: number;
  readonly sums: SumsSoFar;
}

export class RoundMeter {
  private readonly meter: MeanSquareMeter;
  private readonly from: number;
  private readonly tick_s: number;
  /** Ticks from one kept round to the next. */
  private stride: number;
  private next: number;
  private kept: KeptRound[] = [];

  /** `round`: ticks of one round of the load, counted from tick `from`. */
  constructor(meter: MeanSquareMeter, from: number, round: number, tick_s: number) {
    this.meter = meter;
    this.from = from;
    this.tick_s = tick_s;
    this.stride = round;
    this.next = from + round;
  }

  /** A judged step has ended at `tick`. The round begins at the first step's end that is not before it. */
  step(tick: number): void {
    if (tick < this.next) return;
    this.kept.push({ tick, sums: this.meter.soFar() });
    if (this.kept.length > most) {
      this.kept = this.kept.filter((_, j) => j % 2 === 1);
      this.stride *= 2;
    }
    const { from, stride } = this;
    this.next = from + (Math.floor((tick - from) / stride) + 1) * stride;
  }

  /** By beginning; none begins where the window ends. */
  readings(): RoundSquares[] {
    const end = this.meter.soFar();
    return this.kept
      .filter(({ sums }) => sums.ticks < end.ticks)
      .map(({ tick, sums }) => ({ from_s: tick * this.tick_s, squares: this.meter.between(sums, end) }));
  }
}
