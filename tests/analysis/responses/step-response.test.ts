import { describe, expect, test } from 'vitest';
import { stepResponse, type Trace } from '../../../src/analysis/responses/step-response.ts';

/** Buckets of a function of time: ends and middle of each, which is what a smooth one needs. */
function traceOf(y: (t: number) => number, from_s: number, to_s: number, buckets: number): Trace {
  const width_s = (to_s - from_s) / buckets;
  const edges_s = Float64Array.from({ length: buckets + 1 }, (_, k) => from_s + k * width_s);
  const of = (pick: (...values: number[]) => number): Float64Array =>
    Float64Array.from({ length: buckets }, (_, k) =>
      pick(y(edges_s[k]! + 1e-12), y(edges_s[k]! + width_s / 2), y(edges_s[k + 1]! - 1e-12)),
    );
  return { edges_s, min: of(Math.min), max: of(Math.max), mean: of((_, middle) => middle) };
}

/** y″ + 2 ζ ω y′ + ω² y = ω² from rest. */
const secondOrder =
  (omega: number, zeta: number) =>
  (t: number): number => {
    if (t < 0) return 0;
    const damped = omega * Math.sqrt(1 - zeta * zeta);
    const sine = (zeta / Math.sqrt(1 - zeta * zeta)) * Math.sin(damped * t);
    return 1 - Math.exp(-zeta * omega * t) * (Math.cos(damped * t) + sine);
  };

describe('closed form of the second order', () => {
  // Overshoot exp(−π ζ / √(1 − ζ²)), the swing back its square. Settling times are where the exact response stays within
  // 2 % and 5 %; the examples are Nise 4.5 (first row) and Ogata 5-1 (second), whose books give overshoot 2.838 % and 9.5 %.
  test.each([
    { omega: 10, zeta: 0.75, overshoot: 0.0283754, in2_s: 0.57426, in5_s: 0.3125 },
    { omega: 5, zeta: 0.6, overshoot: 0.0947802, in2_s: 1.1886, in5_s: 1.04581 },
    { omega: 10, zeta: 0.5, overshoot: 0.1630335, in2_s: 0.80763, in5_s: 0.52891 },
    { omega: 1, zeta: 0.2, overshoot: 0.5266206, in2_s: 19.60188, in5_s: 13.74441 },
    { omega: 100, zeta: 0.1, overshoot: 0.7292476, in2_s: 0.38383, in5_s: 0.28968 },
  ])('ω $omega, ζ $zeta', ({ omega, zeta, overshoot, in2_s, in5_s }) => {
    const length_s = 3 * in2_s;
    const y = secondOrder(omega, zeta);
    for (const [scale, offset] of [
      [1, 0],
      [-140, 50],
    ] as const) {
      const trace = traceOf((t) => offset + scale * y(t - 0.25), 0, 0.25 + length_s, 40_000);
      const found = stepResponse(trace, { before_s: 0, at_s: 0.25, until_s: 0.25 + length_s })!;
      const size = Math.abs(scale);
      const width_s = (0.25 + length_s) / 40_000;
      expect(found.start).toBeCloseTo(offset, 5);
      expect(found.overshoot_ratio!).toBeCloseTo(overshoot, 3);
      expect(found.overshoot / size).toBeCloseTo(overshoot, 3);
      expect(found.undershoot / size).toBeCloseTo(overshoot ** 2, 3);
      // A bucket is counted whole; the end is read where 0.3 % of the swing may be left.
      expect(Math.abs(found.settling_2_s! - in2_s)).toBeLessThan(width_s + 0.02 * in2_s);
      expect(Math.abs(found.settling_5_s! - in5_s)).toBeLessThan(width_s + 0.02 * in5_s);
    }
  });

  test('a first order lag has no overshoot and is within a band after ln(1 / band) time constants', () => {
    const trace = traceOf((t) => (t < 1 ? 2 : 3 - Math.exp(-(t - 1) / 0.1)), 0, 3, 30_000);
    const found = stepResponse(trace, { before_s: 0, at_s: 1, until_s: 3 })!;
    expect(found.overshoot).toBeLessThan(1e-6);
    expect(found.undershoot).toBeLessThan(1e-6);
    expect(found.settling_5_s!).toBeCloseTo(0.1 * Math.log(20), 3);
    expect(found.settling_2_s!).toBeCloseTo(0.1 * Math.log(50), 3);
  });
});

describe('what does not end elsewhere, or does not end', () => {
  test('what comes back has no ratio; its bands are shares of its largest deviation', () => {
    const pulse = (t: number): number => (t < 1 ? 50 : 50 - 2 * Math.exp(-(t - 1) / 0.1));
    const found = stepResponse(traceOf(pulse, 0, 3, 30_000), { before_s: 0, at_s: 1, until_s: 3 })!;
    expect(found.overshoot_ratio).toBeNull();
    expect(found.overshoot).toBeCloseTo(2, 3);
    expect(found.span).toBeCloseTo(2, 3);
    expect(found.undershoot).toBeLessThan(1e-6);
    expect(found.settling_5_s!).toBeCloseTo(0.1 * Math.log(20), 3);
  });

  test('the wrong way first is an undershoot', () => {
    // The step of (1 − 2 s) / (1 + s)²: 1 − e⁻ᵗ − 3 t e⁻ᵗ, lowest where t = 2 / 3: 1 − 3 e^(−2/3).
    const y = (t: number): number => (t < 0 ? 0 : 1 - Math.exp(-t) * (1 + 3 * t));
    const found = stepResponse(traceOf(y, -5, 20, 50_000), { before_s: -5, at_s: 0, until_s: 20 })!;
    expect(found.undershoot).toBeCloseTo(3 * Math.exp(-2 / 3) - 1, 4);
    expect(found.overshoot).toBeLessThan(1e-4);
  });

  test.each([
    ['a swing that goes on', (t: number): number => (t < 0 ? 0 : 1 + 0.2 * Math.sin(40 * t))],
    ['a ramp', (t: number): number => (t < 0 ? 0 : t)],
  ])('%s is not settled', (_, y) => {
    const found = stepResponse(traceOf(y, -1, 2, 3000), { before_s: -1, at_s: 0, until_s: 2 })!;
    expect(found.settling_5_s).toBeNull();
    expect(found.settling_2_s).toBeNull();
  });

  test('a swing within 5 % but not within 2 % is settled to the one', () => {
    const y = (t: number): number => (t < 0 ? 0 : 1 + 0.03 * Math.sin(200 * t));
    const found = stepResponse(traceOf(y, -1, 2, 6000), { before_s: -1, at_s: 0, until_s: 2 })!;
    expect(found.settling_5_s).not.toBeNull();
    expect(found.settling_2_s).toBeNull();
  });

  test('too few buckets, or nothing before the step, tell nothing', () => {
    const trace = traceOf((t) => (t < 0 ? 0 : 1), -1, 1, 38);
    expect(stepResponse(trace, { before_s: -1, at_s: 0, until_s: 1 })).toBeNull();
    expect(stepResponse(trace, { before_s: -1, at_s: -1, until_s: 1 })).toBeNull();
    const finer = traceOf((t) => (t < 0 ? 0 : 1), -1, 1, 40);
    expect(stepResponse(finer, { before_s: -1, at_s: 0, until_s: 1 })).not.toBeNull();
  });
});
