/**
 * What the trays are to carry together: three references over one memory w, the smoothed load.
 *
 *   load-following     w ← w + (T/τ_s)(P_hat − w)                P = P_hat − w
 *   source-ramp        w ← w + clamp(P_hat − w, ±R T)             P = P_hat − w
 *   source-high-pass   w ← w + (k T/τ_s)(s − w)                   P ← P + min(1, T/τ_f)(k (s − w) − P)
 * P_hat = s + q is the load as both sums show it, s the source. The first two are feed-forward: they see the load
 * itself, and smooth as far up as their latency lets them. The third is feedback on the source alone: of what is
 * fast it leaves 1/(1 + k), and below it is the same first-order lag, with (1 + k) τ_s/k.
 * In all three N E + τ_s w of an unclamped group does not move with a slow load, or nearly so for the ramp.
 */
import type { SmoothingValues } from '../../scenario/parameters/smoothing.ts';
import { type ExposedCell, sizes } from '../exposed.ts';

export class Reference {
  /** Smoothed load w [W]. */
  smoothed_W = 0;
  /** What the trays were last to carry together, and the lagged command of the feedback loop [W]. */
  total_W = 0;
  private readonly values: SmoothingValues;

  constructor(values: SmoothingValues) {
    this.values = values;
  }

  /** One run on the load as it shows and the source: what the trays are to carry together [W]. */
  run(load: number, source: number): number {
    const { reference, period_s, time_constant_s } = this.values;
    if (reference === 'source-high-pass') return this.feedBack(source);
    if (reference === 'source-ramp') {
      const most = this.values.source_ramp_W_per_s * period_s;
      const gap = load - this.smoothed_W;
      this.smoothed_W += gap > most ? most : gap < -most ? -most : gap;
    } else this.smoothed_W += (period_s / time_constant_s) * (load - this.smoothed_W);
    this.total_W = load - this.smoothed_W;
    return this.total_W;
  }

  private feedBack(source: number): number {
    const { period_s, time_constant_s, feedback_gain_ratio: k, feedback_lag_s } = this.values;
    this.smoothed_W += ((k * period_s) / time_constant_s) * (source - this.smoothed_W);
    const along = feedback_lag_s > period_s ? period_s / feedback_lag_s : 1;
    this.total_W += along * (k * (source - this.smoothed_W) - this.total_W);
    return this.total_W;
  }

  /** A run without a signal: what the trays carry stands, or fades. */
  runDeaf(): number {
    const { on_lost, period_s, leak_time_s } = this.values;
    if (on_lost === 'decay') this.total_W *= leak_time_s > period_s ? 1 - period_s / leak_time_s : 0;
    return this.total_W;
  }

  /** Goes on from here without a jump: w such that the trays' part stays what it is. */
  catchUp(load: number, source: number): void {
    const { reference, feedback_gain_ratio } = this.values;
    this.smoothed_W =
      reference === 'source-high-pass' ? source - this.total_W / feedback_gain_ratio : load - this.total_W;
  }

  /** Starts afresh at this load: the trays carry nothing. */
  begin(load: number, source: number): void {
    this.smoothed_W = this.values.reference === 'source-high-pass' ? source : load;
    this.total_W = 0;
  }

  /** The smoothed load; with feedback also what the trays carry together, which the loop remembers. */
  memory(): readonly ExposedCell[] {
    const smoothed: ExposedCell = {
      label: 'smoothed load',
      size: sizes.power_W,
      get: () => this.smoothed_W,
      set: (value) => {
        this.smoothed_W = value;
      },
    };
    const total: ExposedCell = {
      label: 'feedback command',
      size: sizes.power_W,
      get: () => this.total_W,
      set: (value) => {
        this.total_W = value;
      },
    };
    return this.values.reference === 'source-high-pass' ? [smoothed, total] : [smoothed];
  }

  /** Where w rests when source and trays give this [W]. */
  resting_W(source: number, trays: number): number {
    return this.values.reference === 'source-high-pass' ? source : source + trays;
  }

  /** What the trays carry together at a held load and a held w [W]: with feedback the source is the rest of it. */
  restingTotal_W(load: number, w: number): number {
    const { reference, feedback_gain_ratio: k } = this.values;
    return reference === 'source-high-pass' ? (k * (load - w)) / (1 + k) : load - w;
  }
}
