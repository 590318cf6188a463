import { expect, it } from 'vitest';
import { without } from '../../src/analysis/record/spans.ts';
import { steepestRamp } from '../../src/analysis/signal/ramp.ts';
import { rampsOver, rampsWithin, steepest } from '../../web/panels/ramp-series.ts';
import { syntheticRun } from '../fixtures/run.ts';

const { means } = syntheticRun(10).result;
const power = means.columns.get('total.ac_power_W')!;

it.each([0.1, 1])('rampsOver() holds the steepest ramp over %d s where it is judged', (window_s) => {
  const ramps = rampsOver(means, window_s)!;
  const judged = steepestRamp(power, means.from_s, means.width_s, window_s, [])!;
  expect(steepest(ramps, ramps.fits.from_s, ramps.fits.to_s)).toBeCloseTo(judged.ramp, 0);
  expect(steepest(ramps, judged.time_s, judged.time_s)).toBeCloseTo(judged.ramp, 0);
});

it('rampsWithin() sees nothing of a jump in a stretch that is judged up to it', () => {
  // 100 kW until 5 s, nothing after: the ramp over 100 ms knows of it from 4.9 s on.
  const step = Float64Array.from({ length: 1000 }, (_, j) => (j < 500 ? 1e5 : 0));
  const ramps = rampsOver({ ...means, columns: new Map([['total.ac_power_W', step]]) }, 0.1)!;
  const lost = [{ from_s: 5, to_s: 10 }].map(({ from_s, to_s }) => ({
    from_s: from_s - 0.1,
    to_s: to_s + 0.1,
  }));
  expect(rampsWithin(ramps, without(ramps.fits, lost))).toEqual([0, 0]);
  expect(rampsWithin(ramps, [ramps.fits])).toEqual([-1e6, 0]);
});

it('rampsOver() has no ramps of a run too short for two windows', () => {
  expect(rampsOver(means, 6)).toBe(null);
});
