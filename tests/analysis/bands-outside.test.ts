/**
 * Ripple by band of a stretch without a period, beside what a plain transform of the same samples shows.
 *
 * A transform takes a stretch as if it went on in a circle. Where its last sample is not its first the circle has a
 * jump, and a jump of J has an amplitude of J/(π f T) in the bin at f, whatever the load did there. The stated
 * definition takes out the straight line through both ends, and with it the jump; a transform that takes out the mean
 * alone reads more, up to a third of what is there in a recording. What is true is known here in two ways: by tones of known height, and by a recording
 * so much longer than the stretch that its own ends are far away.
 */
import { describe, expect, it } from 'vitest';
import { bandRipple } from '../../src/analysis/signal/bands.ts';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { plainReading } from '../../src/loads/recorded/plain-reading.ts';
import { readLoad } from '../../src/request/read-load.ts';

const rate_Hz = 100;
const recording = 'scenarios/loads/training-two-accelerators-50hz.csv';

type Edges = readonly [number, number];

/**
 * Content of the bins with low ≤ f < high of samples whose mean alone was taken out: sums written out, no library.
 * `finer`: so many points to a sample.
 */
function plainBand(x: Float64Array, [low_Hz, high_Hz]: Edges, finer = 1): Float64Array {
  const n = x.length;
  const points = finer * n;
  const y = new Float64Array(points);
  for (let k = Math.ceil((low_Hz * n) / rate_Hz); k < (high_Hz * n) / rate_Hz; k++) {
    let re = 0;
    let im = 0;
    // One turn of the circle in n steps: bin k goes round it k times as fast.
    for (let j = 0; j < n; j++) {
      const angle = (2 * Math.PI * ((k * j) % n)) / n;
      re += x[j]! * Math.cos(angle);
      im += x[j]! * Math.sin(angle);
    }
    for (let j = 0; j < points; j++) {
      const angle = (2 * Math.PI * ((k * j) % points)) / points;
      y[j]! += (2 / n) * (re * Math.cos(angle) + im * Math.sin(angle));
    }
  }
  return y;
}

function swing(x: Float64Array): number {
  return x.reduce((a, b) => Math.max(a, b)) - x.reduce((a, b) => Math.min(a, b));
}

function meanOf(x: Float64Array): number {
  return x.reduce((a, b) => a + b, 0) / x.length;
}

/** Less the straight line through its first and its last sample. */
function betweenEnds(x: Float64Array): Float64Array {
  const [first, last] = [x[0]!, x.at(-1)!];
  return x.map((value, j) => value - first - ((last - first) * j) / (x.length - 1));
}

/** By the stated definition, as power. */
function stated(x: Float64Array, edges: Edges): number {
  return bandRipple(Float64Array.from(x), rate_Hz, false, [edges])[0]!.ripple_ratio! * meanOf(x);
}

/** The shipped recording as even samples, along straight lines. */
function recorded(): Float64Array {
  const source = new DiskSource({ keeps: false });
  const { time_s, power_W } = readLoad(source, recording, plainReading, () => {}).total;
  let i = 0;
  return Float64Array.from({ length: Math.floor(time_s.at(-1)! * rate_Hz) }, (_, j) => {
    const t = j / rate_Hz;
    while (time_s[i + 1]! < t) i++;
    const along = (t - time_s[i]!) / (time_s[i + 1]! - time_s[i]!);
    return power_W[i]! + along * (power_W[i + 1]! - power_W[i]!);
  });
}

describe('ripple of a stretch without a period', () => {
  it.each([
    // A tone in the band on a swing that is slower than every band; ends apart by 29, 60 and 90 kW.
    [30, 60e3],
    [20.37, 60e3],
    [25.5, 90e3],
  ])(
    'over %f s is that of the tone in the band, where a plain transform reads the jump',
    (length_s, slow_W) => {
      const x = Float64Array.from({ length: Math.round(length_s * rate_Hz) }, (_, j) => {
        const t = j / rate_Hz;
        return 200e3 + slow_W * Math.cos((2 * Math.PI * t) / 90) + 3e3 * Math.sin(2 * Math.PI * 1.03 * t);
      });
      expect(stated(x, [0.5, 3]) / 6e3).toBeGreaterThan(0.98);
      expect(stated(x, [0.5, 3]) / 6e3).toBeLessThan(1.15);
      expect(swing(plainBand(x, [0.5, 3])) / stated(x, [0.5, 3])).toBeGreaterThan(5);
    },
  );

  it.each([0.5, 3])(
    'of a recording from %f Hz on is what the definition says, by sums written out',
    (low_Hz) => {
      const edges: Edges = [low_Hz, low_Hz === 0.5 ? 3 : 20];
      const whole = recorded();
      for (const from_s of [12, 47, 101]) {
        const x = whole.subarray(from_s * rate_Hz, (from_s + 23.7) * rate_Hz);
        const outside = swing(plainBand(betweenEnds(x), edges, 4));
        expect(Math.abs(stated(x, edges) / outside - 1)).toBeLessThan(0.005);
      }
    },
  );

  it('of a recording is that of the whole recording there, where a plain transform leaks', () => {
    const whole = recorded();
    const edges: Edges = [0.5, 3];
    const true_W = plainBand(whole, edges);
    // Every 5 s a stretch of 30 s, of those the ones whose ends lie apart by half the mean or more.
    const ratios = Array.from(
      { length: 25 },
      (_, k): Edges => [(5 + 5 * k) * rate_Hz, (35 + 5 * k) * rate_Hz],
    )
      .map((at) => ({ x: whole.subarray(...at), truth: swing(true_W.subarray(...at)) }))
      .filter(({ x }) => Math.abs(x.at(-1)! - x[0]!) > 0.5 * meanOf(x))
      .map(({ x, truth }) => ({ own: stated(x, edges) / truth, plain: swing(plainBand(x, edges)) / truth }));
    expect(ratios.length).toBeGreaterThan(10);
    const error = (name: 'own' | 'plain'): number[] => ratios.map((ratio) => Math.abs(ratio[name] - 1));
    const rms = (errors: readonly number[]): number => Math.hypot(...errors) / Math.sqrt(errors.length);
    expect(Math.max(...error('own'))).toBeLessThan(0.1);
    expect(Math.max(...error('plain'))).toBeGreaterThan(0.3);
    expect(rms(error('plain'))).toBeGreaterThan(3 * rms(error('own')));
  });
});
