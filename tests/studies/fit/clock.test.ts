/** What a clock does to a fit, on residuals in closed form: hidden behind a time constant, or shown by a wave. */
import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { clockShare, clockStep } from '../../../src/studies/fit/clock.ts';

const count = 400;
const times_s = Float64Array.from({ length: count }, (_, k) => k * 1e-3);
const noise = 0.004;

/** Residuals over the noise by what was measured and what is shown at a clock that is so much faster. */
function shares(measured: (t: number) => number, shown: (t: number) => number, by: (t: number) => number) {
  const random = new Random(7);
  const values = times_s.map((t) => measured(t) + noise * random.gaussian());
  const leftAt = (fast: number): Float64Array =>
    values.map((v, i) => (v - shown(times_s[i]! / (1 + fast))) / noise);
  return clockShare({
    left: leftAt(0),
    faster: leftAt(clockStep),
    slower: leftAt(-clockStep),
    sensitivities: Matrix.columnVector([...times_s].map((t) => -by(t) / noise)),
    variance: 1,
    known_ratio: 3e-4,
  });
}

const [tau_s, level] = [0.1, 20];
const decay = (t: number): number => level * Math.exp(-t / tau_s);
/** By a unit of τ over its own value. */
const byTau = (t: number): number => (decay(t) * t) / tau_s;

describe('clockShare()', () => {
  test('moves a time constant by as much as the clock, which no residual shows', () => {
    const { moves, spread_ratio, clock } = shares(decay, decay, byTau);
    // Stamps that run 1 % fast make τ look 1 % long.
    expect(moves[0]).toBeCloseTo(-1, 3);
    expect(spread_ratio).toBeCloseTo(3e-4, 6);
    expect(clock).toMatchObject({ is_off: false, seen_ratio: null, hidden_ratio: 0.01 });
  });

  test('finds a clock that is off by what a wave shows beside what is fitted', () => {
    const wave = (t: number): number => Math.sin(2 * Math.PI * 20 * t);
    const { clock } = shares((t) => wave(t / 1.003), wave, wave);
    expect(clock.is_off).toBe(true);
    expect(Math.abs(clock.seen_ratio! - 0.003)).toBeLessThan(3 * clock.seen_error_ratio!);
  });

  test('takes a clock within what is assumed for right, and its share from what data show', () => {
    const wave = (t: number): number => Math.sin(2 * Math.PI * 20 * t);
    const { clock, spread_ratio } = shares(wave, wave, wave);
    expect(clock.is_off).toBe(false);
    expect(spread_ratio).toBeLessThan(2e-4);
  });
});
