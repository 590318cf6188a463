/** P_inst over time, from a sampled voltage (block 1 included) or from its envelope. */
import { exponential } from '../../base/exponential.ts';
import { logarithm } from '../../base/logarithm.ts';
import { waveColumn } from '../../dense/samples.ts';
import type { Samples } from '../signal/samples.ts';
import type { Lamp } from './lamp.ts';
import { Flickermeter } from './meter.ts';

/** How fast block 1 follows the mean voltage: 10 to 90 % of a step in one minute, first order. */
const followed_s = 60 / logarithm(9);
/** What the slow mean starts from: a minute of the record, or all of a shorter one. */
const firstMean_s = 60;
/** Below this rate the filters' bilinear warping is felt at 25 Hz: envelopes are interpolated up to it. */
const least_Hz = 3000;

/** Samples of an envelope that go through the meter at once. */
const atOnce = 512;

/**
 * P_inst of an envelope e(t), RMS voltage over what block 1 holds, sample by sample. Between samples the envelope runs
 * along the cubic through its four neighbours (to 2·10⁻⁵ at a fortieth of the rate). The meter has rested on an
 * undisturbed voltage before the first sample.
 */
class EnvelopeMeter {
  private readonly meter: Flickermeter;
  private readonly finer: number;
  private readonly cubics: readonly Cubic[];
  /** Of twice the line's frequency, a sample. */
  private readonly turns: number;
  private taken = 0;

  constructor(rate_Hz: number, lamp: Lamp, line_Hz: number) {
    this.finer = Math.max(1, Math.ceil(least_Hz / rate_Hz));
    this.cubics = Array.from({ length: this.finer }, (_, k) => cubicAt(k / this.finer));
    this.meter = new Flickermeter(lamp, line_Hz, this.finer * rate_Hz);
    this.meter.rest(1);
    this.turns = (2 * line_Hz) / (this.finer * rate_Hz);
  }

  /** P_inst at `count` samples of the envelope, given from the one before the first to two after the last. */
  take(envelope: Float64Array, count: number): Float64Array {
    const { finer, cubics, turns, meter } = this;
    const fine = new Float64Array(count * finer);
    for (let j = 0; j < count; j++) fine[j * finer] = envelope[j + 1]!;
    for (let k = 1; k < finer; k++) {
      const { before, here, next, after } = cubics[k]!;
      for (let j = 0; j < count; j++) {
        const p = before * envelope[j]!;
        const q = here * envelope[j + 1]!;
        const r = next * envelope[j + 2]!;
        const s = after * envelope[j + 3]!;
        fine[j * finer + k] = -p / 6 + q / 2 - r / 2 + s / 6;
      }
    }
    const carrier = new Float64Array(fine.length);
    waveColumn(carrier, this.taken * finer, turns);
    for (let m = 0; m < fine.length; m++) {
      const e = fine[m]!;
      fine[m] = e * e * (1 - carrier[m]!);
    }
    meter.run(fine);
    this.taken += count;
    const sensed = new Float64Array(count);
    for (let j = 0; j < count; j++) sensed[j] = fine[j * finer]!;
    return sensed;
  }
}

/** P_inst of an envelope, handed out one value per sample of it. Beyond its ends the envelope stands still. */
export function senseEnvelope(
  envelope: Samples,
  rate_Hz: number,
  lamp: Lamp,
  line_Hz: number,
  hand: (sensed: number, j: number) => void,
): void {
  const n = envelope.length;
  const meter = new EnvelopeMeter(rate_Hz, lamp, line_Hz);
  const part = new Float64Array(atOnce + 3);
  for (let from = 0; from < n; from += atOnce) {
    const count = Math.min(atOnce, n - from);
    for (let j = 0; j < count + 3; j++) part[j] = envelope.at(Math.min(n - 1, Math.max(0, from + j - 1)))!;
    const sensed = meter.take(part, count);
    for (let j = 0; j < count; j++) hand(sensed[j]!, from + j);
  }
}

/** The same in one piece. */
export function sensationOfEnvelope(
  envelope: Samples,
  rate_Hz: number,
  lamp: Lamp,
  line_Hz: number,
): Float64Array {
  const out = new Float64Array(envelope.length);
  senseEnvelope(envelope, rate_Hz, lamp, line_Hz, (sensed, j) => {
    out[j] = sensed;
  });
  return out;
}

/** Weights of Lagrange's cubic through values at −1, 0, 1, 2: −p/6 + q/2 − r/2 + s/6 of what each makes of its value. */
interface Cubic {
  readonly before: number;
  readonly here: number;
  readonly next: number;
  readonly after: number;
}

/** Read at x from 0 to 1. */
function cubicAt(x: number): Cubic {
  return {
    before: x * (x - 1) * (x - 2),
    here: (x + 1) * (x - 1) * (x - 2),
    next: (x + 1) * x * (x - 2),
    after: (x + 1) * x * (x - 1),
  };
}

/**
 * P_inst of a line voltage sampled with its carrier, any unit, at 3 kHz or faster. Block 1 divides by the RMS,
 * followed slowly (10 to 90 % of a step in one minute).
 */
export function sensationOfVoltage(
  voltage: Float64Array,
  rate_Hz: number,
  lamp: Lamp,
  line_Hz: number,
): Float64Array {
  const meter = new Flickermeter(lamp, line_Hz, rate_Hz);
  meter.rest(1);
  const out = new Float64Array(voltage.length);
  const first = Math.min(voltage.length, Math.round(firstMean_s * rate_Hz));
  let square = 0;
  for (let j = 0; j < first; j++) square += (voltage[j]! * voltage[j]!) / first;
  const follow = 1 - exponential(-1 / (rate_Hz * followed_s));
  for (let j = 0; j < voltage.length; j++) {
    const u = voltage[j]!;
    // Following the mean square is following the RMS: over a minute their difference is of second order.
    square += follow * (u * u - square);
    out[j] = (u * u) / square;
  }
  meter.run(out);
  return out;
}
