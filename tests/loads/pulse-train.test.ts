import { describe, expect, test } from 'vitest';
import type { Demand } from '../../src/loads/demand.ts';
import { pulseTrainDemand } from '../../src/loads/pulse-train.ts';
import { contextOf } from './context.ts';

const train = {
  kind: 'pulse-train',
  low_W: 100e3,
  high_W: 240e3,
  period_s: 1.6,
  duty_ratio: 0.7,
  edge_s: 5e-3,
  spread_s: 0,
  scatter_s: 0,
  jitter_s: 0,
} as const;
const period = 6_400_000;
const edge = 20_000;

function powerAt(demand: Demand, tick: number, profile = 0): number {
  const out = new Float64Array(demand.profileCount);
  demand.at(out, tick);
  return out[profile]!;
}

function kinks(demand: Demand, from: number, to: number): number[] {
  const found: number[] = [];
  for (let t = demand.nextKink(from); t <= to; t = demand.nextKink(t)) found.push(t);
  return found;
}

describe('pulseTrainDemand()', () => {
  test('puts its edges on the exact ticks: low from 0, top at (1 − D)T, low again at T', () => {
    const d = pulseTrainDemand(train, contextOf());
    const top = 0.3 * period;
    expect(kinks(d, 0, 2 * period)).toEqual([
      top - edge,
      top,
      period - edge,
      period,
      period + top - edge,
      period + top,
      2 * period - edge,
      2 * period,
    ]);
    expect(powerAt(d, 0)).toBe(100e3);
    expect(powerAt(d, top - edge)).toBe(100e3);
    expect(powerAt(d, top - edge / 2)).toBe(170e3);
    expect(powerAt(d, top)).toBe(240e3);
    expect(powerAt(d, period - edge)).toBe(240e3);
    expect(d.kinkAt(top)).toBeCloseTo(140e3 / 5e-3, 3);
    expect(d.rounding_s).toBe(0);
    expect(d.period_ticks).toBe(period);
    expect(d.bandwidth_Hz).toBeNull();
  });

  test('has the closed-form mean low + (high − low)·D and energy over whole periods', () => {
    const d = pulseTrainDemand(train, contextOf({ duration_s: 16 }));
    expect(Math.abs(d.mean_W / 198e3 - 1)).toBeLessThan(1e-12);
    expect(Math.abs(d.energy_J / (198e3 * 16) - 1)).toBeLessThan(1e-12);
    expect(d.peak_W).toBeCloseTo(240e3, 6);
    expect(d.low_W).toBeCloseTo(100e3, 6);
  });

  test('repeats bit for bit after its period', () => {
    const d = pulseTrainDemand(train, contextOf());
    for (let t = 0; t < period; t += 9973) expect(powerAt(d, t + 50 * period)).toBe(powerAt(d, t));
  });

  test('spreads the sleds evenly: sled k is later by spread·k/(n − 1)', () => {
    const d = pulseTrainDemand({ ...train, spread_s: 0.015 }, contextOf({ sledCount: 16 }));
    expect(d.profileCount).toBe(16);
    const delay_ticks = 4000;
    for (const k of [0, 1, 7, 15]) {
      expect(powerAt(d, 0.3 * period + k * delay_ticks, d.profileOf[k]!)).toBe(240e3);
      expect(powerAt(d, 0.3 * period + k * delay_ticks - edge, d.profileOf[k]!)).toBe(100e3);
    }
    expect(Math.abs(d.mean_W / 198e3 - 1)).toBeLessThan(1e-12);
  });

  test('scatter shifts each sled by a random part of it, seeded, and keeps period, energy and the other shifts', () => {
    const scatter_s = 0.2;
    const make = (seed: number, spread_s = 0) =>
      pulseTrainDemand({ ...train, scatter_s, spread_s }, contextOf({ sledCount: 60, seed, duration_s: 16 }));
    // The rise of sled k ends at 0.3 T plus its shift.
    const shifts = (d: Demand): number[] =>
      Array.from(d.profileOf, (p) => {
        const delays: number[] = [];
        for (let t = 0.3 * period - 1; t <= 0.3 * period + 2 * scatter_s * 4e6; t = d.nextKink(t)) {
          if (powerAt(d, t, p) === 240e3 && powerAt(d, t - edge, p) === 100e3) delays.push(t - 0.3 * period);
        }
        return delays[0]!;
      });
    const d = make(3);
    const found = shifts(d);
    expect(d.period_ticks).toBe(period);
    expect(Math.abs(d.energy_J / (198e3 * 16) - 1)).toBeLessThan(1e-12);
    expect(Math.min(...found)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...found)).toBeLessThanOrEqual(scatter_s * 4e6);
    // Uniform over 0 to 0.2 s: mean 0.1 s with a standard error of 0.2/√(12 × 60) s; four of them.
    const mean_s = found.reduce((a, b) => a + b) / found.length / 4e6;
    expect(Math.abs(mean_s - scatter_s / 2)).toBeLessThan((4 * scatter_s) / Math.sqrt(12 * 60));
    expect(shifts(make(3))).toEqual(found);
    expect(shifts(make(4))).not.toEqual(found);
    // An even spread adds to the same draws.
    const both = shifts(make(3, 0.0059));
    for (const k of [0, 1, 30, 59]) expect(both[k]! - found[k]!).toBeCloseTo(k * 1e-4 * 4e6, 0);
  });

  test('spread so far that pulses never all meet lowers the peak of the total', () => {
    const half = pulseTrainDemand({ ...train, duty_ratio: 0.25, spread_s: 0.8 }, contextOf({ sledCount: 2 }));
    expect(half.peak_W).toBeCloseTo(170e3, 6);
    expect(half.low_W).toBeCloseTo(100e3, 6);
  });

  test('jitter draws period lengths about T with its deviation, the same for the same seed', () => {
    const n = 2000;
    const load = { ...train, period_s: 0.1, jitter_s: 0.002 };
    const make = (seed: number) => pulseTrainDemand(load, contextOf({ seed, duration_s: n * 0.1 }));
    const d = make(5);
    expect(d.period_ticks).toBeNull();
    const starts = [
      0,
      ...kinks(d, 0, n * 400_000).filter((t) => powerAt(d, t) === 100e3 && d.nextKink(t) - t > edge),
    ];
    const lengths = starts.slice(1).map((t, i) => (t - starts[i]!) * 0.25e-6);
    const mean = lengths.reduce((a, b) => a + b) / lengths.length;
    const deviation = Math.sqrt(lengths.reduce((a, x) => a + (x - mean) ** 2, 0) / lengths.length);
    // Standard errors: 0.002/√2000 = 4.5e-5 of the mean, 0.002/√4000 = 3.2e-5 of the deviation; four of each.
    expect(Math.abs(mean - 0.1)).toBeLessThan(1.8e-4);
    expect(Math.abs(deviation - 0.002)).toBeLessThan(1.3e-4);
    expect(kinks(make(5), 0, 4e6)).toEqual(kinks(d, 0, 4e6));
    expect(kinks(make(6), 0, 4e6)).not.toEqual(kinks(d, 0, 4e6));
    expect(d.rounding_s).toBeGreaterThan(0);
    expect(d.rounding_s).toBeLessThanOrEqual(0.125e-6);
    // Every period keeps its duty, so the mean differs from the closed form by the last, cut period only.
    expect(Math.abs(d.mean_W / 198e3 - 1)).toBeLessThan(1 / n);
  });

  test('says all that does not fit at once', () => {
    const wrong = { ...train, low_W: 300e3, period_s: 1.6000001, edge_s: 0.6, spread_s: -1, scatter_s: -1 };
    expect(() => pulseTrainDemand(wrong, contextOf())).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.period
        found     1.6000001 s
        expected  a whole number of ticks of 2.5e-7 s, at least 2
        mend      write 1.6 s, the nearest that is
      load.low
        found     300000 W
        expected  at most high, 240000 W
        mend      exchange low and high
      load.edge
        found     0.6 s
        expected  at most the shorter part of the period, 0.48 s
        mend      shorten the edge
      load.spread
        found     -1 s
        expected  a time of 0 or more
        mend      write 0 s for no spread
      load.scatter
        found     -1 s
        expected  a time of 0 or more
        mend      write 0 s for no scatter
      5 problems. Nothing was run.]
    `);
  });

  test('refuses an edge of no length, which would be a jump', () => {
    expect(() => pulseTrainDemand({ ...train, edge_s: 0 }, contextOf())).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.edge
        found     0 s
        expected  a whole number of ticks of 2.5e-7 s, at least 1
        mend      write 2.5e-7 s, the nearest that is
      1 problem. Nothing was run.]
    `);
  });

  test('refuses a jitter that could squeeze out an edge', () => {
    const wrong = { ...train, jitter_s: 0.4 };
    expect(() => pulseTrainDemand(wrong, contextOf())).toThrowErrorMatchingInlineSnapshot(`
      [BadInput: load.jitter
        found     0.4 s
        expected  at most 0.3958 s, so that every period holds its edges
        mend      lower the jitter
      1 problem. Nothing was run.]
    `);
  });
});
