/** Currents against time–current curves: constant heights, pulse trains, and the inrush of a sled. */
import { describe, expect, it } from 'vitest';
import { ExcursionMeter } from '../../src/analysis/protection/excursion-meter.ts';
import { guardedCurrent } from '../../src/analysis/protection/guarded-current.ts';
import { tripTime_s } from '../../src/analysis/protection/trip-curve.ts';
import { reportShape } from '../../src/bundle/report-shape.ts';
import { run } from '../../src/run.ts';
import type { TripCurve } from '../../src/scenario/scenario.ts';
import { shippedWith } from '../engine/runs.ts';
import { messageOf, type Swap } from '../scenario/shipped.ts';

const curve = { ratios: [1.25, 2, 10], times_s: [1000, 100, 0.1] };
const rating_A = 100;

function metered(current: (t: number) => number, to_s: number, step_s: number): ExcursionMeter {
  const meter = new ExcursionMeter(curve, rating_A, to_s);
  for (let k = 0; k <= Math.round(to_s / step_s); k++) meter.take(k * step_s, current(k * step_s));
  meter.end();
  return meter;
}

/** From 2 s on, so high and so long, with jumps; nothing before and after. */
function bursting(curve: TripCurve, height_A: number, length_s: number, to_s: number): ExcursionMeter {
  const meter = new ExcursionMeter(curve, rating_A, to_s);
  const end_s = 2 + length_s;
  for (const [t, a] of [
    [0, 0],
    [2, 0],
    [2, height_A],
    [end_s, height_A],
    [end_s, 0],
    [to_s, 0],
  ] as const)
    meter.take(t, a);
  meter.end();
  return meter;
}

describe('a time–current curve', () => {
  it('is straight on double logarithmic axes, never trips below and goes no faster beyond', () => {
    // From (2, 100 s) to (10, 0.1 s): t = 100 s (r/2)^-n with n = 3 ln 10/ln 5.
    const n = (3 * Math.log(10)) / Math.log(5);
    for (const ratio of [2, 3, 5, 9.9])
      expect(tripTime_s(curve, ratio)).toBeCloseTo(100 * (ratio / 2) ** -n, 9);
    expect(tripTime_s(curve, 1.2499)).toBe(Number.POSITIVE_INFINITY);
    expect(tripTime_s(curve, 50)).toBe(0.1);
  });
});

describe('an excursion', () => {
  // Closed form: a burst of height I and length t takes t over the curve's time of I. Where that time falls with less than the
  // square of the current, a longer window with its smaller RMS takes more: t_w = t (I/I_w)² at the segment's lowest current.
  it.each(
    [125, 137, 200, 317, 500, 640, 777, 1000].flatMap((height) =>
      [0.0123, 0.9, 5].map((s) => [height, s] as const),
    ),
  )('of constant %s A for %s s takes its share of the time of the curve, never less', (height, length_s) => {
    const meter = bursting(curve, height, length_s, 12);
    const { used_ratio, from_s } = meter.nearest()!;
    const ratio = length_s / tripTime_s(curve, height / rating_A);
    expect(used_ratio / ratio).toBeGreaterThan(0.999);
    expect(used_ratio / ratio).toBeLessThan(1.05);
    expect(from_s).toBeLessThan(2.001);
  });

  it('of constant height on a curve flatter than I² takes what a longer window with its RMS takes', () => {
    // t ∝ I^-1.5 from (1, 1000 s) to (16, 15.625 s): windows down to the lowest current take (I/I_0)^(2 - 1.5) times as much.
    const flat = { ratios: [1, 16], times_s: [1000, 15.625] };
    const meter = bursting(flat, 400, 2, 60);
    const { used_ratio, current_A, length_s } = meter.nearest()!;
    const direct = 2 / tripTime_s(flat, 4);
    expect(used_ratio / (direct * 2)).toBeGreaterThan(0.999);
    expect(used_ratio / (direct * 2)).toBeLessThan(1.05);
    expect(current_A).toBeCloseTo(100, 0);
    expect(length_s).toBeCloseTo(32, 0);
  });

  it('of a pulse train is counted by its RMS, I√D, where no pulse lasts', () => {
    // 1 kA for 10 ms of every 100 ms: no stay is longer than 10 ms, the RMS over any whole period is 316.2 A.
    const meter = metered((t) => ((t * 1000) % 100 < 10 ? 1000 : 0), 20, 0.0005);
    const { counted, current_A, length_s, allowed_s, used_ratio } = meter.nearest()!;
    expect(counted).toBe('rms');
    expect(current_A).toBeGreaterThan(0.98 * 1000 * Math.sqrt(0.1));
    expect(length_s).toBeGreaterThan(14);
    expect(used_ratio).toBeCloseTo(length_s / allowed_s, 12);
    expect(meter.goesOn()).toBe(true);
  });

  it('that never reaches the curve has none', () => {
    const low = metered(() => 120, 3, 0.01);
    expect(low.nearest()).toBeNull();
    expect(low.goesOn()).toBe(false);
  });
});

describe('protection of a scenario', () => {
  const file = 'scenarios/inrush-trips.yaml';
  const refused = (...swaps: readonly Swap[]): string => messageOf(swaps, {}, file);

  it('shows the inrush of a hot-plugged sled, judges what is nearest and says what it does not', () => {
    const scenario = shippedWith('inrush-trips', { duration: '0.6 s' });
    const current = guardedCurrent(scenario, 'sled-8');
    let [t0, charge_C, peak_A] = [0.4, 0, 0];
    const { report } = run(scenario, null, {
      waveforms: {
        series: current.channels.map((id) => ({ id, of: [id], usual: false })),
        pace: { kind: 'every-step' },
        take: (time_s, values) => {
          if (time_s > 0.4) {
            charge_C += (time_s - t0) * current.current_A(values, 0);
            peak_A = Math.max(peak_A, current.current_A(values, 0));
          }
          t0 = time_s;
        },
      },
    });
    // The limiter aims at 50 A at its samples, until what was plugged in, 8.4 mF, stands at the bus.
    const bus_V = report.metrics.bus_min_V!;
    expect(peak_A).toBeGreaterThan(45);
    expect(peak_A).toBeLessThan(70);
    expect(charge_C / (8.4e-3 * bus_V)).toBeCloseTo(1, 1);
    const finding = report.findings.find(({ id }) => id === 'trip-margin')!;
    expect(finding.reason).toContain('no clearing of faults');
    expect(report.protection!.units).toHaveLength(8);
    expect(reportShape(JSON.parse(JSON.stringify(report)), '').protection).toEqual(report.protection);
  });

  it('is not applicable only where no curve is given', () => {
    const { protection: _none, ...bare } = shippedWith('inrush-trips', { duration: '0.1 s' });
    const { report } = run(bare, null);
    expect(report.findings.find(({ id }) => id === 'trip-margin')!.verdict).toBe('not_applicable');
    expect(report.protection).toBeUndefined();
  });

  it('is refused with a curve that turns, a column that lacks, a unit that is not there', () => {
    const said = refused(
      [file, '2: 60 s, 6: 1 s', '2: 60 s, 6: 70 s'],
      [file, 'guards: [S1, S5]', 'guards: [S1, S55]'],
      ['scenarios/curves/fuse.csv', 'current_ratio,time_s', 'current,time_s'],
    );
    expect(said).toContain('found     70 s\n  expected  times that fall as the current rises');
    expect(said).toContain('found     unit S55');
    expect(said).toContain('found     current, time_s\n  expected  columns current_ratio and time_s');
  });
});
