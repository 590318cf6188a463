import type { WaveformOrder } from '../../engine/meters/waveforms.ts';
import type { MeasuredColumn } from '../measurement.ts';
import { noiseOf } from '../noise.ts';
import type { Curves } from './curve.ts';
import { Thinned } from './thinned.ts';

/** What is left out of a curve, over the noise of the measurement that it is compared with. */
const leftOut = 1e-3;

/**
 * Keeps the measured channels of a run at the end of every step, to within a thousandth of the measurement's noise: what
 * an instrument reads of it, at an instant or over a window, is then taken from the run itself and from no filtered
 * stream.
 */
export class CurveKeeper {
  readonly order: WaveformOrder;
  private readonly channels: readonly string[];
  private readonly kept: readonly Thinned[];

  constructor(columns: readonly MeasuredColumn[]) {
    const finest = new Map<string, number>();
    for (const { channel, values } of columns) {
      const tolerance = leftOut * (values.length === 0 ? 0 : noiseOf(values));
      finest.set(channel, Math.min(tolerance, finest.get(channel) ?? Number.POSITIVE_INFINITY));
    }
    this.channels = [...finest.keys()];
    const kept = [...finest.values()].map((tolerance) => new Thinned(tolerance));
    this.kept = kept;
    this.order = {
      series: this.channels.map((id) => ({ id, of: [id], usual: false })),
      pace: { kind: 'every-step' },
      take: (time_s, values) => {
        for (let c = 0; c < kept.length; c++) kept[c]!.push(time_s, values[c]!);
      },
    };
  }

  /** The run is over: what it showed, and what of it is judged. */
  curves(window: Curves['window']): Curves {
    const { channels, kept } = this;
    return {
      of: new Map(channels.map((channel, c) => [channel, { channel, ...kept[c]!.points() }])),
      window,
    };
  }
}
