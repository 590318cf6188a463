import { describe, expect, test } from 'vitest';
import type { Demand } from '../../../src/loads/demand.ts';
import { syntheticDemand } from '../../../src/loads/synthetic/make-synthetic.ts';
import { polygonError } from '../../../src/loads/synthetic/sweep.ts';
import type { SyntheticKind, SyntheticLoad } from '../../../src/scenario/synthetic-loads.ts';
import { contextOf } from '../context.ts';
import { oneOfEach as samples } from './one-of-each.ts';

const kinds = Object.keys(samples) as SyntheticKind[];
const kW = 1e3;
const ten = contextOf({ duration_s: 10 });
const perSecond = 4e6;

/** Total at a time, by the sleds' even shares. */
function total(d: Demand, time_s: number): number {
  const out = new Float64Array(d.profileCount);
  d.at(out, Math.round(time_s * perSecond));
  return d.profileOf.reduce((sum, p) => sum + out[p]! / d.profileOf.length, 0);
}

describe.each(kinds)('a %s load', (kind) => {
  const d = syntheticDemand(samples[kind], ten);

  test('has every kink on a whole tick, and its stated energy is the sum over the pieces between them', () => {
    let energy_J = 0;
    let from = 0;
    let low = Math.min(total(d, 0), total(d, 10));
    let high = Math.max(total(d, 0), total(d, 10));
    let kinks = 0;
    while (from < 10 * perSecond) {
      const to = Math.min(10 * perSecond, d.nextKink(from));
      expect(Number.isInteger(to)).toBe(true);
      if (to < 10 * perSecond) {
        expect(d.kinkAt(to)).toBeGreaterThan(0);
        kinks++;
      }
      energy_J += (0.5 * (total(d, from / perSecond) + total(d, to / perSecond)) * (to - from)) / perSecond;
      low = Math.min(low, total(d, to / perSecond));
      high = Math.max(high, total(d, to / perSecond));
      from = to;
    }
    expect(Math.abs(d.energy_J / energy_J - 1)).toBeLessThan(1e-12);
    expect(d.mean_W).toBeCloseTo(d.energy_J / 10, 6);
    expect([d.low_W, d.peak_W]).toEqual([expect.closeTo(low, 6), expect.closeTo(high, 6)]);
    expect(kinks).toBeGreaterThan(1);
  });

  test('is the same for the same seed, and says what it is', () => {
    const again = syntheticDemand(samples[kind], ten);
    for (let t = 0; t < 10; t += 0.0371) expect(total(again, t)).toBe(total(d, t));
    expect(d.remarks![0]).toMatch(new RegExp(`^Synthetic load ${kind}, generator 1, seed 1: mean `));
    expect(d.bandwidth_Hz).toBeNull();
  });
});

test('the drawn families change with the seed', () => {
  const other = contextOf({ duration_s: 10, seed: 2 });
  for (const kind of ['start-up', 'inference', 'spikes'] as const) {
    expect(syntheticDemand(samples[kind], other).energy_J).not.toBe(
      syntheticDemand(samples[kind], ten).energy_J,
    );
  }
});

describe('the families follow their closed forms:', () => {
  const energy = (load: SyntheticLoad) => syntheticDemand(load, ten).energy_J / kW;

  test('training: duty, edges and dips', () => {
    // Five iterations: low 0.8 s, high 1.2 s between half heights, three dips of a fifth of 200 kW for 50 ms.
    expect(energy(samples.training)).toBeCloseTo(5 * (0.8 * 100 + 1.2 * 200 - 3 * 0.05 * 40), 9);
    const d = syntheticDemand(samples.training, ten);
    expect(d.period_ticks).toBe(2 * perSecond);
    expect([total(d, 0.5), total(d, 1.5), total(d, 0.8 - 0.005)]).toEqual([
      100 * kW,
      expect.any(Number),
      150 * kW,
    ]);
  });

  test('training with jitter and trend does not repeat and keeps its levels within the trend', () => {
    const d = syntheticDemand(
      { ...samples.training, jitter_s: 0.03, trend_ratio: 0.03, trend_period_s: 9 },
      ten,
    );
    expect(d.period_ticks).toBeNull();
    expect(d.peak_W).toBeLessThanOrEqual(206 * kW);
    expect(d.peak_W).toBeGreaterThan(201 * kW);
    expect(d.settlesOnMean).toBe(true);
  });

  test('checkpoint: two gaps of 3 s between half heights, the second cut by the end', () =>
    expect(energy(samples.checkpoint)).toBeCloseTo(10 * 200 - (3 + 2.99) * 150, 6));
  test('abort: down at 2 s, back from 7 s to 8 s', () =>
    expect(energy(samples.abort)).toBeCloseTo(2 * 200 + 0.02 * 115 + 4.98 * 30 + 115 + 2 * 200, 9));
  test('floor: the ripple has no mean', () =>
    expect(energy(samples.floor)).toBeCloseTo(40 + 2 * 110 + 6 * 180 + 180 - (140 / 3) * 0.5, 6));
  test('brake: 1 s at half', () => expect(energy(samples.brake)).toBeCloseTo(2000 - 100, 9));
  test('ladder: up and down', () => {
    const d = syntheticDemand(samples.ladder, ten);
    expect([0.2, 0.7, 4.7, 5.2, 9.2].map((t) => total(d, t) / kW)).toEqual([20, 40, 200, 180, 20]);
  });
  test('sweeps have the mean of their levels over whole periods', () => {
    expect(energy(samples['sweep-sine'])).toBeCloseTo(1250, 2);
    expect(energy(samples['sweep-square'])).toBeCloseTo(1250, 0);
  });

  test('sine: the polygon stays inside the sine by at most the stated part of the amplitude', () => {
    const d = syntheticDemand({ ...samples['sweep-sine'], steps_count: 1 }, ten);
    let worst = 0;
    for (let t = 0; t < 1; t += 0.00037) {
      worst = Math.max(worst, Math.abs(total(d, t) - (125 + 25 * Math.sin(2 * Math.PI * t)) * kW));
    }
    expect(worst / (25 * kW)).toBeLessThanOrEqual(polygonError(32));
    expect(worst / (25 * kW)).toBeGreaterThan(0.9 * polygonError(32));
  });

  test('skewed: the total stays, the halves trade places', () => {
    const d = syntheticDemand(samples.skewed, ten);
    const out = new Float64Array(2);
    d.at(out, 0);
    expect([...out].map((p) => p / 2)).toEqual([134 * kW, expect.closeTo(66 * kW, 6)]);
    d.at(out, 5 * perSecond);
    expect([...out].map((p) => p / 2)).toEqual([0, 200 * kW]);
    expect(total(d, 2.25)).toBeCloseTo(200 * kW, 6);
  });

  test('spikes: as many as the rate asks, on half of the sleds', () => {
    const long = contextOf({ duration_s: 400 });
    const d = syntheticDemand(samples.spikes, long);
    const spikes = (d.energy_J - 400 * 160 * kW) / (0.01 * 80 * kW * 0.5);
    // A Poisson count of mean 2000 lies within 4 standard deviations, 179.
    expect(Math.abs(spikes - 2000)).toBeLessThan(179);
    expect(d.peak_W).toBeGreaterThanOrEqual(200 * kW);
  });

  test('inference: the share of time in prefill is that of a queue without waiting', () => {
    const load = { ...samples.inference, common_ratio: 0, swell_ratio: 0, decode_W: 40 * kW, edge_s: 1e-4 };
    const d = syntheticDemand(load, contextOf({ duration_s: 400 }));
    const busy = (d.mean_W - 40 * kW) / (160 * kW);
    // No request in prefill with probability exp(−rate × mean length), whatever the lengths' distribution.
    expect(Math.abs(busy - (1 - Math.exp(-0.2)))).toBeLessThan(0.01);
  });

  test('spread and scatter move sleds apart and keep the energy of a periodic load', () => {
    const load = { ...samples.training, spread_s: 0.3, scatter_s: 0.1 };
    const d = syntheticDemand(load, ten);
    expect(d.profileCount).toBe(16);
    expect(d.energy_J / kW).toBeCloseTo(energy(samples.training), 6);
  });
});

test('what does not fit is refused, all at once', () => {
  const load = { ...samples.training, low_W: 300 * kW, dips_count: 30 };
  expect(() => syntheticDemand(load, ten)).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.low
      found     300000 W
      expected  at most high, 200000 W
      mend      exchange low and high
    load.dip_length
      found     30 dips of 0.05 s
      expected  dips of 0.01 s (the edge) to 0.02967 s
      mend      change dips or dip_length
    2 problems. Nothing was run.]
  `);
  expect(() =>
    syntheticDemand({ ...samples.ladder, hold_s: 0.1e-6 }, ten),
  ).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.hold
      found     1e-7 s
      expected  a whole number of ticks of 2.5e-7 s, at least 1
      mend      write 2.5e-7 s, the nearest that is
    load.edge
      found     0.001 s
      expected  at most hold, 1e-7 s
      mend      shorten the edge
    2 problems. Nothing was run.]
  `);
});
