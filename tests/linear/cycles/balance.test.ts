/**
 * Harmonic balance of loops in closed form. A relay ±D in a loop K e^(−τs)/s swings with the period 4τ, which is exact, and by
 * its describing function with the amplitude 8KDτ/π²; its triangle reaches KDτ (Gelb and Vander Velde 1968, from memory).
 */
import { describe, expect, it } from 'vitest';
import { logFrequencies } from '../../../src/linear/curves.ts';
import { cyclesOf, type OpenedLoop } from '../../../src/linear/cycles/balance.ts';
import { deadBand, saturation, stairs } from '../../../src/linear/cycles/describing.ts';
import { predict } from '../../../src/linear/cycles/prediction.ts';

/** K e^(−τs)/s. Its growth turns over at K N τ = π/2. */
const delayed = (K: number, tau: number): OpenedLoop => ({
  period_s: null,
  over_Hz: logFrequencies(0.01 / tau, 0.6 / tau, 60),
  standing: -1,
  at(f) {
    const w = 2 * Math.PI * f;
    return {
      re: (-K * Math.sin(w * tau)) / w,
      im: (-K * Math.cos(w * tau)) / w,
    };
  },
  growth: (gain) => gain * K - Math.PI / (2 * tau),
});

describe('a quantum in a loop of integrator and delay', () => {
  const [K, tau, q] = [20, 0.01, 2];
  it('midway between two codes is the relay: period 4τ, amplitude 8KDτ/π²', () => {
    const { cycle, kind } = predict(delayed(K, tau), stairs(q), q / 2);
    expect(kind).toBe('cycle');
    expect(1 / cycle!.frequency_Hz).toBeCloseTo(4 * tau, 6);
    expect(cycle!.amplitude).toBeCloseTo((8 * K * (q / 2) * tau) / Math.PI ** 2, 5);
    // The third harmonic is a third behind the relay and a ninth behind the integrator; L(3jω) is L/3 in size.
    expect(cycle!.returned_ratio).toBeCloseTo(1 / 9, 2);
  });

  it('near a code is not filtered: a second harmonic comes back', () => {
    expect(predict(delayed(K, tau), stairs(q), 0.55 * q).kind).toBe('cycle');
    expect(predict(delayed(K, tau), stairs(q), 0.85 * q).why).toContain('harmonics are not filtered');
  });

  it('that is sampled coarsely gets no prediction', () => {
    const coarse = { ...delayed(K, tau), period_s: tau / 2 };
    expect(predict(coarse, stairs(q), q / 2).why).toContain('sampled too coarsely');
  });
});

describe('a clamp', () => {
  it('holds what a loop beyond its edge lets grow, where N is one over the excess', () => {
    const [tau, excess] = [0.01, 1.2];
    const { cycle, kind } = predict(delayed((excess * Math.PI) / (2 * tau), tau), saturation(1), 0);
    expect(kind).toBe('cycle');
    expect(cycle!.gain).toBeCloseTo(1 / excess, 6);
    expect(saturation(1).gain(cycle!.amplitude, 0)).toBeCloseTo(1 / excess, 6);
  });

  it('makes no cycle in a stable loop', () => {
    expect(predict(delayed(20, 0.01), saturation(1), 0).why).toBe('no cycle balances');
  });
});

describe('a subtractive dead band', () => {
  it('in a loop beyond its edge parts what dies from what grows', () => {
    const loop = delayed((1.5 * Math.PI) / (2 * 0.01), 0.01);
    const found = predict(loop, deadBand(1), 0);
    expect(found.kind).toBe('edge');
    expect(cyclesOf(loop, deadBand(1), 0)[0]!.isStable).toBe(false);
    expect(deadBand(1).gain(found.cycle!.amplitude, 0)).toBeCloseTo(1 / 1.5, 6);
  });
});
