/** Readings of known waves: against closed forms of folding, of means and of chance. */
import { describe, expect, it } from 'vitest';
import { beatOf } from '../../src/monitoring/beat.ts';
import type { Bound } from '../../src/monitoring/beyond-meter.ts';
import { PollMeter } from '../../src/monitoring/poll-meter.ts';

interface Asked {
  readonly first_s?: number;
  readonly period_s?: number;
  readonly averaging_s?: number;
  readonly from_s?: number;
  readonly bounds?: readonly Bound[];
}

function polled(wave: (t: number) => number, to_s: number, step_s: number, asked: Asked = {}): PollMeter {
  const { first_s = 0, period_s = 1, averaging_s = 0, from_s = 0, bounds = [] } = asked;
  const meter = new PollMeter({ first_s, period_s, averaging_s, from_s }, bounds);
  for (let k = 0; k <= Math.round(to_s / step_s); k++) meter.take(k * step_s, wave(k * step_s));
  return meter;
}

/** Frequency of the largest line of a discrete Fourier transform over all readings [lines]. */
function strongestLine(readings: readonly number[]): number {
  const n = readings.length;
  const mean = readings.reduce((sum, value) => sum + value / n, 0);
  let [best, most] = [0, -1];
  for (let line = 1; line <= n / 2; line++) {
    let [re, im] = [0, 0];
    readings.forEach((value, j) => {
      re += (value - mean) * Math.cos((2 * Math.PI * line * j) / n);
      im += (value - mean) * Math.sin((2 * Math.PI * line * j) / n);
    });
    const size = re * re + im * im;
    if (size > most * (1 + 1e-9)) [best, most] = [line, size];
  }
  return best;
}

describe('readings of instants', () => {
  it.each([0.8, 1.6, 0.9, 3])('of a sine of %s s seem to have the period that folding gives', (load_s) => {
    const { readings } = polled((t) => Math.sin((2 * Math.PI * t) / load_s + 0.3), 719.5, 0.05);
    expect(readings).toHaveLength(720);
    const { apparent_period_s } = beatOf(1, load_s);
    expect(readings.length / strongestLine(readings)).toBeCloseTo(apparent_period_s!, 9);
  });

  it('stand still where the period is a whole number of those of the load', () => {
    expect(beatOf(1, 0.5)).toMatchObject({ apparent_period_s: null, passed_over_count: 2 });
    expect(beatOf(0.25, 1)).toMatchObject({ apparent_period_s: 1, passed_over_count: 0 });
  });

  it('span none of pulses that all fall between them', () => {
    const pulse = (t: number): number => (t % 1 > 0.3 && t % 1 < 0.6 ? 240 : 100);
    const meter = polled(pulse, 20, 0.01);
    expect(meter.seen()).toMatchObject({ min: 100, max: 100 });
    expect(meter.truth()).toMatchObject({ min: 100, max: 240 });
  });

  it('begin after the warm-up', () => {
    const meter = polled((t) => t, 5, 0.01, { from_s: 2.5, first_s: 0.2 });
    expect(meter.time_s.map((t) => Number(t.toFixed(6)))).toEqual([3.2, 4.2]);
    expect(meter.truth()!.min).toBeCloseTo(2.5, 9);
    expect(meter.truth()!.mean).toBeCloseTo(3.75, 9);
  });
});

describe('means that a device answers with', () => {
  it.each([0.5, 2.5])('over %s s are the integral of a ramp, where they overlap too', (averaging_s) => {
    const meter = polled((t) => 3 * t, 10, 0.03, { averaging_s });
    meter.readings.forEach((value, k) => {
      expect(value).toBeCloseTo(3 * (meter.time_s[k]! - averaging_s / 2), 9);
    });
    expect(meter.time_s[0]).toBe(Math.ceil(averaging_s));
  });

  it('over whole periods of pulses hide them', () => {
    const meter = polled((t) => (t % 0.5 < 0.25 ? 1 : 0), 10, 0.001, { averaging_s: 1 });
    const { min, max } = meter.seen()!;
    expect(max - min).toBeLessThan(0.01);
  });
});

describe('a dip below a limit', () => {
  const bounds = [{ limit: 'low', side: 'lower', level_V: 48 }] as const;

  it('of 50 ms under a poll a second is met at 5 % of all phases', () => {
    const dip = (t: number): number => (t >= 3 && t < 3.05 ? 40 : 50);
    let met = 0;
    const phases = 400;
    for (let k = 0; k < phases; k++) {
      const [found] = polled(dip, 5, 0.001, { first_s: k / phases + 1e-5, bounds }).found();
      met += found!.met_count;
      expect(found!.count).toBe(1);
      // Edges last a step of 1 ms, crossed at 8/10 or 2/10 of it.
      expect(found!.longest_s).toBeCloseTo(0.05, 2);
      expect(found!.met_by_chance_ratio).toBeCloseTo(0.05, 2);
    }
    expect(met / phases).toBeCloseTo(0.05, 2);
  });

  it('is missed whole, and told', () => {
    const dip = (t: number): number => 50 - 10 * Math.max(0, 1 - Math.abs(t - 2.5) / 0.1);
    const [found] = polled(dip, 5, 0.01, { bounds }).found();
    // A triangle 10 V deep, 200 ms wide at its foot, crosses 2 V of depth 80 ms from its middle.
    expect(found).toMatchObject({ count: 1, met_count: 0 });
    expect(found!.longest_missed_s).toBeCloseTo(0.16, 9);
  });

  it('that a mean does not show is not met', () => {
    const dip = (t: number): number => (t >= 3.4 && t < 3.45 ? 40 : 50);
    const [found] = polled(dip, 6, 0.001, { averaging_s: 1, bounds }).found();
    expect(found).toMatchObject({ count: 1, met_count: 0, met_by_chance_ratio: null });
  });
});
