/**
 * Loads that are as they should be show no sign, however their sensor writes them: flat levels, exactly repeated cycles,
 * idle stretches, steps of the sensor, a meter that renews slower than it is read.
 */
import { describe, expect, test } from 'vitest';
import { constantDemand } from '../../../src/loads/constant.ts';
import type { Demand } from '../../../src/loads/demand.ts';
import { pulseTrainDemand } from '../../../src/loads/pulse-train.ts';
import { Random } from '../../../src/loads/random.ts';
import { stepDemand } from '../../../src/loads/step.ts';
import { syntheticDemand } from '../../../src/loads/synthetic/make-synthetic.ts';
import { clippedBelow } from '../../../src/samples/signs/clipped-below.ts';
import { combined } from '../../../src/samples/signs/combined.ts';
import { hurried } from '../../../src/samples/signs/hurried.ts';
import { signsOf } from '../../../src/samples/signs/signs-of.ts';
import { still } from '../../../src/samples/signs/still.ts';
import { contextOf } from '../../loads/context.ts';
import { oneOfEach } from '../../loads/synthetic/one-of-each.ts';
import { busy, channel } from './known-signal.ts';

const evenly = { edge_s: 0.01, jitter_s: 0, spread_s: 0, scatter_s: 0 };
const context = contextOf({ duration_s: 60 });
const loads: Readonly<Record<string, Demand>> = {
  ...Object.fromEntries(
    Object.entries(oneOfEach).map(([kind, load]) => [kind, syntheticDemand(load, context)]),
  ),
  constant: constantDemand({ kind: 'constant', power_W: 2e5 }, context),
  step: stepDemand({ kind: 'step', before_W: 5e4, after_W: 2e5, at_s: 10, edge_s: 0.01 }, context),
  'pulse train': pulseTrainDemand(
    {
      kind: 'pulse-train',
      low_W: 5e4,
      high_W: 2e5,
      period_s: 1.2,
      duty_ratio: 0.5,
      ...evenly,
    },
    context,
  ),
  'pulse train down to 0': pulseTrainDemand(
    { kind: 'pulse-train', low_W: 0, high_W: 2e5, period_s: 1.2, duty_ratio: 0.5, ...evenly },
    context,
  ),
};

/** One device of 300, at a rate. */
function sampled(demand: Demand, rate_Hz: number): Float64Array {
  const out = new Float64Array(demand.profileCount);
  return Float64Array.from({ length: 60 * rate_Hz }, (_, k) => {
    demand.at(out, Math.round(k / rate_Hz / context.tick_s));
    return out[0]! / 300;
  });
}

type Sensor = (values: Float64Array, seed: number) => Float64Array;

const inSteps =
  (step: number): Sensor =>
  (values) =>
    values.map((v) => Math.round(v / step) * step);
const noisy =
  (share: number, step: number): Sensor =>
  (values, seed) => {
    const random = new Random(seed);
    return values.map((v) =>
      Math.max(0, Math.round((v + (share * v + 0.5) * random.gaussian()) / step) * step),
    );
  };

const sensors: Readonly<Record<string, Sensor>> = {
  'as it is': (values) => values,
  'in steps of 1 W': inSteps(1),
  'in steps of 10 W': inSteps(10),
  'with 0.3 % of noise, in steps of 0.1 W': noisy(0.003, 0.1),
  'with 0.3 % of noise, in steps of 1 W': noisy(0.003, 1),
  'with 0.3 % of noise, in steps of 10 W': noisy(0.003, 10),
  'with 3 % of noise': noisy(0.03, 0.001),
  'renewed at every fifth reading': (values, seed) => {
    const fresh = noisy(0.003, 0.1)(values, seed);
    return fresh.map((_, k) => fresh[k - (k % 5)]!);
  },
};

/** A sweep that is sampled too slowly for its frequency looks like noise, and stands still when it is over. */
const ratesOf = (kind: string): number[] => (kind.startsWith('sweep') ? [500] : [5, 50, 500]);

/** A constant power that shows no noise looks like a dead sensor, which is asked. */
const isAsked = (kind: string, name: string): boolean =>
  kind === 'constant' && ['as it is', 'in steps of 1 W', 'in steps of 10 W'].includes(name);

describe.each(Object.entries(loads))('%s', (kind, demand) => {
  test.each(Object.entries(sensors))('%s', (name, sensor) => {
    for (const rate_Hz of ratesOf(kind)) {
      const one = channel(sensor(sampled(demand, rate_Hz), rate_Hz));
      expect([...signsOf([one]).signs, ...clippedBelow(one), ...hurried([one])]).toEqual([]);
      expect(still(one)).toHaveLength(isAsked(kind, name) ? 1 : 0);
    }
  });

  test('of several devices in step, no channel is made of others', () => {
    const channels = [1, 2, 3, 4].map((k) =>
      channel(
        noisy(0.01, 0.1)(sampled(demand, 50), k).map((v) => (0.9 + 0.05 * k) * v),
        `${k}`,
      ),
    );
    expect(signsOf(channels).signs).toEqual([]);
    expect(combined(channels)).toBeNull();
  });
});

describe('a busy device', () => {
  test('as long as it likes', () => {
    for (const seed of [1, 2, 3]) expect(signsOf([channel(busy(20_000, seed))]).signs).toEqual([]);
  });

  test('that idles at one reading for long, at its start or its end', () => {
    const idle = new Float64Array(1000).fill(65.2);
    for (const values of [
      [...idle, ...busy()],
      [...busy(), ...idle],
    ])
      expect(signsOf([channel(Float64Array.from(values))]).signs).toEqual([]);
  });

  test('at a cap that its control holds with a little noise', () => {
    const capped = busy().map((v, k) => (v > 600 ? 600 + (k % 7) * 0.1 : v));
    expect(signsOf([channel(capped)]).signs).toEqual([]);
  });
});

describe('what a load does by itself is no fault of its file:', () => {
  const random = new Random(12);
  const noise = (): number => 2 * random.gaussian();
  const slow = new Float64Array(3000);
  for (let k = 1; k < slow.length; k++) slow[k] = 0.9 * slow[k - 1]! + noise();
  const wander = (k: number): number => slow[k]!;
  const found = (of: (k: number) => number): string[] => {
    const one = channel(Float64Array.from({ length: 3000 }, (_, k) => Math.round(10 * of(k)) / 10));
    return [...signsOf([one]).signs, ...clippedBelow(one)].map(({ kind }) => kind);
  };

  test.each<readonly [string, (k: number) => number]>([
    ['a constant power with noise', () => 500 + noise()],
    ['lone peaks that come evenly', (k) => (k % 60 === 30 ? 900 : 200) + noise()],
    ['a ramp over all of it', (k) => 100 + k / 5 + noise()],
    ['ramps that begin anew', (k) => 100 + (k % 500) + noise()],
    ['a swing with noise on it', (k) => 400 + 200 * Math.sin(k / 9) + noise()],
    ['a fast swing', (k) => 400 + 200 * Math.sin(k / 1.7) + noise()],
    ['a rest of its own, high above 0, with noise', (k) => (k % 50 < 20 ? 300 : 700) + noise()],
    ['edges between levels that wander slowly', (k) => (k % 90 < 60 ? 700 : 130) + wander(k)],
    [
      'pulses of four samples, and rests of the load between them',
      (k) => (k % 300 < 200 && k % 4 < 2 ? 700 : 300) + noise(),
    ],
    [
      'a swing of seven samples or nearly, and rests',
      (k) => 500 + (k % 300 < 200 ? 200 * Math.sin(k / 1.1) : -300) + noise(),
    ],
    [
      'pulses of five samples at two levels',
      (k) => (k % 5 < 2 ? 1 : 0.5) * (k % 400 < 200 ? 300 : 700) + noise(),
    ],
    ['pulses down to 0 that come evenly', (k) => (k % 8 === 0 ? 0 : 400 + noise())],
  ])('%s', (_, of) => {
    expect(found(of)).toEqual([]);
  });
});
