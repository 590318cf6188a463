import { expect, it } from 'vitest';
import { without } from '../../src/analysis/record/spans.ts';
import { steepestRamp } from '../../src/analysis/signal/ramp.ts';
import { rampsOver, rampsWithin, steepest } from '../../web/panels/ramp-series.ts';
import { makeRecord } from '../../web/record.ts';
import { syntheticRun } from '../fixtures/run.ts';

const { result } = syntheticRun(10);
const record = makeRecord(result.recording);
const power = result.means.columns.get('total.ac_power_W')!;

it.each([0.1, 1])(
  'rampsOver() holds the steepest ramp over %d s that is judged, and no steeper one',
  (window_s) => {
    const ramps = rampsOver(result.means, window_s, record)!;
    const judged = steepestRamp(power, result.means.from_s, result.means.width_s, window_s, [])!;
    const all = Array.from({ length: record.bucketCount }, (_, b) => Math.abs(steepest(ramps.series, b)));
    expect(Math.max(...all)).toBeCloseTo(Math.abs(judged.ramp), 0);
    expect(all[record.bucketAt(judged.time_s)]).toBeCloseTo(Math.abs(judged.ramp), 0);
  },
);

it('rampsWithin() leaves a jump out of sight that lies in a stretch left out', () => {
  const ramps = rampsOver(result.means, 0.1, record)!;
  const judged = steepestRamp(power, result.means.from_s, result.means.width_s, 0.1, [])!;
  const around = [{ from_s: judged.time_s - 0.2, to_s: judged.time_s + 0.2 }];
  const [low, high] = rampsWithin(ramps, record, without(ramps.fits, around))!;
  const [wholeLow, wholeHigh] = rampsWithin(ramps, record, [ramps.fits])!;
  expect(low).toBeGreaterThanOrEqual(wholeLow);
  expect(high).toBeLessThanOrEqual(wholeHigh);
  const jump = judged.ramp < 0 ? wholeLow : wholeHigh;
  expect(jump).toBeCloseTo(judged.ramp, 0);
});

it('rampsOver() has no ramps of a run too short for two windows', () => {
  expect(rampsOver(result.means, 6, record)).toBe(null);
});
