/**
 * Flickermeter, blocks 2 to 4: from the line voltage over its slow mean, or from its envelope, to the
 * instantaneous flicker sensation P_inst. Source: IEC 61000-4-15:2010, clause 4.
 *
 * Two ways in, one chain. A voltage u = √2 e(t) sin(ωt) squared is u² = e² (1 − cos 2ωt): where the envelope e
 * is known, the demodulator's output is that product itself, and no carrier need be sampled. The two agree to
 * rounding where both are sampled at one rate; the envelope may be sampled slower, as long as the rate is
 * above twice (2ω/2π plus the highest frequency in e²): 1 kHz takes envelopes up to 300 Hz on 60 Hz.
 * Content of e near 2ω folds into what the eye sees, as it does in a real meter.
 */
import { highPass_Hz, type Lamp, lowPass_Hz, reference_Hz, smoothing_s } from './lamp.ts';
import { scaleOfLamp } from './response.ts';
import { butterworth, Cascade, highPass, lag } from './sections.ts';

export class Flickermeter {
  /** High-pass, low-pass and weighting. */
  readonly weighting: Cascade;
  readonly smoothing: Cascade;
  readonly scale: number;

  constructor(lamp: Lamp, line_Hz: number, rate_Hz: number) {
    const turn = 2 * Math.PI;
    const corner_Hz = lowPass_Hz(line_Hz);
    const w1 = turn * lamp.w1_Hz;
    const [w2, w3, w4] = [turn * lamp.w2_Hz, turn * lamp.w3_Hz, turn * lamp.w4_Hz];
    this.weighting = new Cascade(
      [
        { ...highPass(highPass_Hz), pin_Hz: highPass_Hz },
        ...butterworth(6, corner_Hz).map((pair) => ({ ...pair, pin_Hz: corner_Hz })),
        {
          b: [0, lamp.k * w1, 0],
          a: [w1 * w1, 2 * turn * lamp.lambda_Hz, 1],
          pin_Hz: reference_Hz,
        },
        { b: [1, 1 / w2, 0], a: [1, 1 / w3 + 1 / w4, 1 / (w3 * w4)], pin_Hz: reference_Hz },
      ],
      rate_Hz,
    );
    this.smoothing = new Cascade([{ ...lag(smoothing_s), pin_Hz: 1 / (turn * smoothing_s) }], rate_Hz);
    this.scale = scaleOfLamp(lamp, line_Hz);
  }

  /** As after a long time of undisturbed voltage: the demodulator's output has been `x`. */
  rest(x: number): void {
    this.weighting.rest(x);
    this.smoothing.rest(0);
  }

  /** The next samples of the demodulator's output, whose mean is 1, become P_inst after each of them. */
  run(column: Float64Array): void {
    this.weighting.run(column);
    for (let j = 0; j < column.length; j++) column[j]! *= column[j]!;
    this.smoothing.run(column);
    for (let j = 0; j < column.length; j++) column[j]! *= this.scale;
  }
}
