/** P_inst over time, from a sampled voltage (block 1 included) or from its envelope. */
import { exponential } from '../../base/exponential.ts';
import { logarithm } from '../../base/logarithm.ts';
import { cosineOfTurns } from '../../base/sine.ts';
import type { Samples } from '../signal/samples.ts';
import type { Lamp } from './lamp.ts';
import { Flickermeter } from './meter.ts';

/** How fast block 1 follows the mean voltage: 10 to 90 % of a step in one minute, first order. */
const followed_s = 60 / logarithm(9);
/** What the slow mean starts from: a minute of the record, or all of a shorter one. */
const firstMean_s = 60;
/** Below this rate the filters' bilinear warping is felt at 25 Hz: envelopes are interpolated up to it. */
const least_Hz = 3000;

/**
 * P_inst of an envelope e(t), RMS voltage over what block 1 holds, sample by sample. Between samples the envelope runs
 * along the cubic through its four neighbours (to 2·10⁻⁵ at a fortieth of the rate). The meter has rested on an
 * undisturbed voltage before the first sample.
 */
class EnvelopeMeter {
  private readonly meter: Flickermeter;
  private readonly finer: number;
  /** Of twice the line's frequency, a sample. */
  private readonly turns: number;
  private taken = 0;

  constructor(rate_Hz: number, lamp: Lamp, line_Hz: number) {
    this.finer = Math.max(1, Math.ceil(least_Hz / rate_Hz));
    this.meter = new Flickermeter(lamp, line_Hz, this.finer * rate_Hz);
    this.meter.rest(1);
    this.turns = (2 * line_Hz) / (this.finer * rate_Hz);
  }

  /** P_inst at `here`, the next sample of the envelope, given its neighbours. */
  take(before: number, here: number, next: number, after: number): number {
    const { finer, turns, meter } = this;
    let first = 0;
    for (let k = 0; k < finer; k++) {
      const e = k === 0 ? here : cubic(before, here, next, after, k / finer);
      const sensed = meter.next(e * e * (1 - cosineOfTurns(turns * (this.taken * finer + k))));
      if (k === 0) first = sensed;
    }
    this.taken++;
    return first;
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
  if (n === 0) return;
  const meter = new EnvelopeMeter(rate_Hz, lamp, line_Hz);
  let before = envelope.at(0)!;
  let here = before;
  let next = envelope.at(Math.min(n - 1, 1))!;
  for (let j = 0; j < n; j++) {
    const after = envelope.at(Math.min(n - 1, j + 2))!;
    hand(meter.take(before, here, next, after), j);
    before = here;
    here = next;
    next = after;
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

/** Lagrange's cubic through values at −1, 0, 1, 2, read at x from 0 to 1. */
function cubic(a: number, b: number, c: number, d: number, x: number): number {
  const p = x * (x - 1) * (x - 2) * a;
  const q = (x + 1) * (x - 1) * (x - 2) * b;
  const r = (x + 1) * x * (x - 2) * c;
  const s = (x + 1) * x * (x - 1) * d;
  return -p / 6 + q / 2 - r / 2 + s / 6;
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
    out[j] = meter.next((u * u) / square);
  }
  return out;
}
