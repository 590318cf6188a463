/** P_inst over time, from a sampled voltage (block 1 included) or from its envelope. */
import { exponential } from '../../base/exponential.ts';
import { logarithm } from '../../base/logarithm.ts';
import { waveColumn } from '../../dense/samples.ts';
import { type EnvelopeFilters, senseColumn } from '../../dense/sensed-envelope.ts';
import { roundOf } from '../signal/round.ts';
import { readInto, type Samples } from '../signal/samples.ts';
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
  private readonly filters: EnvelopeFilters;
  /** Of twice the line's frequency, a sample. */
  private readonly turns: number;
  /** One round of the carrier; null where none ends on a sample. */
  private readonly round: Float64Array | null;
  private taken = 0;

  constructor(rate_Hz: number, lamp: Lamp, line_Hz: number) {
    const finer = Math.max(1, Math.ceil(least_Hz / rate_Hz));
    const meter = new Flickermeter(lamp, line_Hz, finer * rate_Hz);
    meter.rest(1);
    const { weighting, smoothing, scale } = meter;
    this.filters = { finer, cubics: cubicsOf(finer), weighting, smoothing, scale };
    this.turns = (2 * line_Hz) / (finer * rate_Hz);
    this.round = roundOf(this.turns);
  }

  /** P_inst at each of `sensed`, of the envelope from one sample before the first to two behind the last. */
  take(sensed: Float64Array, envelope: Float64Array): void {
    const { filters, turns, round } = this;
    const first = this.taken * filters.finer;
    this.taken += sensed.length;
    if (round !== null) {
      senseColumn(sensed, envelope, round, first % round.length, filters);
      return;
    }
    const carrier = new Float64Array(sensed.length * filters.finer);
    waveColumn(carrier, first, turns);
    senseColumn(sensed, envelope, carrier, 0, filters);
  }
}

/**
 * P_inst of an envelope, handed out column by column, a value for each sample from `from` on; a column is written over by the
 * next. Beyond its ends the envelope stands still.
 */
export function senseEnvelope(
  envelope: Samples,
  rate_Hz: number,
  lamp: Lamp,
  line_Hz: number,
  hand: (sensed: Float64Array, from: number) => void,
): void {
  const n = envelope.length;
  const meter = new EnvelopeMeter(rate_Hz, lamp, line_Hz);
  const room = new Float64Array(atOnce + around);
  const made = new Float64Array(atOnce);
  for (let from = 0; from < n; from += atOnce) {
    const sensed = made.subarray(0, Math.min(atOnce, n - from));
    const part = room.subarray(0, sensed.length + around);
    readStandingStill(part, envelope, from - 1);
    meter.take(sensed, part);
    hand(sensed, from);
  }
}

/** Samples from `first` on, which may lie before the first one, and on past the last. */
function readStandingStill(into: Float64Array, samples: Samples, first: number): void {
  const before = Math.max(0, -first);
  const there = Math.min(into.length, samples.length - first);
  readInto(into.subarray(before, there), samples, first + before);
  into.fill(into[before]!, 0, before);
  into.fill(into[there - 1]!, there);
}

/** The same in one piece. */
export function sensationOfEnvelope(
  envelope: Samples,
  rate_Hz: number,
  lamp: Lamp,
  line_Hz: number,
): Float64Array {
  const out = new Float64Array(envelope.length);
  senseEnvelope(envelope, rate_Hz, lamp, line_Hz, (sensed, from) => out.set(sensed, from));
  return out;
}

/** Samples beside those of a column that cubics need: one before and two behind. */
const around = 3;

/**
 * Weights of Lagrange's cubic through values at −1, 0, 1, 2, four for each of `finer` places between the middle two:
 * −p/6 + q/2 − r/2 + s/6 of what each makes of its value.
 */
function cubicsOf(finer: number): Float64Array {
  const weights = Array.from({ length: finer }, (_, k) => {
    const x = k / finer;
    return [x * (x - 1) * (x - 2), (x + 1) * (x - 1) * (x - 2), (x + 1) * x * (x - 2), (x + 1) * x * (x - 1)];
  });
  return Float64Array.from(weights.flat());
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
