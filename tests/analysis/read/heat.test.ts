/** How warm a bar gets through events: by its course, not as if minutes went on for good. */
import { describe, expect, it } from 'vitest';
import { readBarHeat } from '../../../src/analysis/read/bars.ts';
import { copperOf } from '../../../src/analysis/read/copper.ts';
import { readJointHeat } from '../../../src/analysis/read/joints.ts';
import { caseOf } from '../../../src/analysis/record/case.ts';
import { rmsUntil, squareCourse } from '../../../src/analysis/record/square-course.ts';
import { copperRow, judgedCopper } from '../../../src/analysis/words/copper-words.ts';
import { formatPercent } from '../../../src/base/quantity.ts';
import { steadyRise_K } from '../../../src/copper/rating.ts';
import { barHeat } from '../../../src/slow/bar-heat.ts';
import { march } from '../../../src/slow/march.ts';
import { demandOf, resultOf, scenarioOf, span } from '../fixture.ts';

/** Ten minutes: 1000 A, from 180 s for 180 s on batteries 2000 A, then 1000 A. */
const rms = (from: number, to: number): number => {
  const carried = Math.max(0, Math.min(to, 360) - Math.max(from, 180));
  return Math.sqrt((1e6 * (to - from - carried) + 4e6 * carried) / (to - from));
};
const bar = {
  ...{ id: 'L1', closed: true, resistance_ohm: 30e-6, rated_current_A: 2003, thermal_time_s: 1955 },
  ...{ air_temperature_degC: 40, joint_resistance_ohm: 5e-6, joint_thermal_resistance_K_per_W: 0.55 },
};
const base = resultOf();
const carrying = [span('carrying', 'B1', 180, 360)];
const channel = { id: 'L1.current_A', kind: 'bar-current' as const, owner: 'L1', unit: 'A' as const };
const square = (from: number) => ({ channel: channel.id, mean: rms(from, 600), rms: rms(from, 600) });

const caseWith = (spans: readonly unknown[]) =>
  caseOf(
    scenarioOf({ bars: { links: [bar], tie: null, rackSegment: bar, segment: bar } as never }),
    demandOf(),
    {
      ...base,
      window: { from_s: 0, to_s: 600 },
      spans: spans as never,
      recording: { ...base.recording, channels: [channel] },
      meanSquares: [square(0)],
      rounds: [60, 120, 180, 240, 300, 360, 420, 480, 540].map((from_s) => ({
        from_s,
        squares: [square(from_s)],
      })),
    },
  );

describe('a bar through minutes on batteries', () => {
  it('is read piece by piece from the record', () => {
    const pieces = squareCourse(caseWith(carrying), channel.id);
    expect(pieces.map((piece) => Math.round(piece.rms))).toEqual([
      ...[1000, 1000, 1000, 2000, 2000, 2000, 1000, 1000, 1000, 1000],
    ]);
    expect(rmsUntil(caseWith(carrying), 'no such channel', 100)).toBeNull();
  });

  it('gets as warm as three minutes make it, begun as warm as it was', () => {
    const { value, time_s, node, reason } = readBarHeat(caseWith(carrying));
    const before = steadyRise_K(1000, 2003);
    const expected = march(barHeat(bar, 2000)!, before, 180, 1e-6);
    expect(50 * value!).toBeCloseTo(expected, 2);
    expect([time_s, node]).toEqual([360, 'L1']);
    expect(reason).toMatch(/^2000 A RMS have heated it at its warmest, not yet for good, by 1\d\.\d K$/);
    // All of the window as if it went on: what was told before.
    expect(steadyRise_K(rms(0, 600), 2003)).toBeGreaterThan(1.25 * expected);
  });

  it('holds for its joints too', () => {
    const { value, time_s } = readJointHeat(caseWith(carrying));
    const [cold, hot] = [0.55 * 5e-6 * 1e6, 0.55 * 5e-6 * 4e6];
    expect(value!).toBeGreaterThan(cold);
    expect(value!).toBeLessThan(cold + 0.12 * (hot - cold));
    expect(time_s).toBe(360);
  });

  it('tells bar by bar what the limits read', () => {
    const c = caseWith(carrying);
    expect(copperOf(c).bars).toEqual([
      {
        bar: 'L1',
        rms_A: Math.max(rms(0, 600), 1000),
        rated_A: 2003,
        rise_K: 50 * readBarHeat(c).value!,
        joint_K: readJointHeat(c).value!,
        runs_away: false,
      },
    ]);
    const report = { copper: copperOf(c), findings: [] };
    const [first] = judgedCopper(report);
    expect([first!.warmth, first!.of_allowed_ratio]).toEqual(['below half', first!.rise_K! / 50]);
    const strict = { ...report, findings: [{ id: 'joint-heat', limit: 1 }] as never };
    expect(judgedCopper(strict)[0]).toMatchObject({ warmth: 'over', of_allowed_ratio: first!.joint_K });
    expect(copperRow(first!).slice(2, 4)).toEqual(['2.003 kA', formatPercent(rms(0, 600) / 2003, 3)]);
  });

  it('without events is as warm as the harder of the window and its last rounds makes it for good', () => {
    expect(50 * readBarHeat(caseWith([])).value!).toBeCloseTo(steadyRise_K(rms(60, 600), 2003), 9);
  });
});
