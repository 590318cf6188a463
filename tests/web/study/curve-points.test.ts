/** What of a response is drawn: phases within half a turn, a floor under gains, nothing beyond half the sampling rate. */
import { expect, it } from 'vitest';
import { endOf, gainFloor, shownPoints, wrapped } from '../../../web/study/curve-points.ts';

const curve = {
  name: 'share loop of S1',
  unit: '',
  half_sampling_Hz: null,
  frequency_Hz: [1, 10, 100, 1000],
  gain_dB: [20, 0, -40, -500],
  phase_deg: [-90, -170, -190, -290],
};

it('ends the phase at −180° and begins it anew at +180°, where a straight line would pass it', () => {
  const points = wrapped(shownPoints(curve));
  expect(points.map(({ phase_deg }) => phase_deg)).toEqual([-90, -170, -180, null, 180, 170, 70]);
  // Half way from −170° to −190° on a log axis.
  expect(points[2]!.frequency_Hz).toBeCloseTo(Math.sqrt(10 * 100), 9);
});

it('interrupts a phase that turns more than once between two points', () => {
  const jumps = { ...curve, frequency_Hz: [1, 10], gain_dB: [0, 0], phase_deg: [0, -800] };
  expect(wrapped(shownPoints(jumps)).map(({ phase_deg }) => phase_deg)).toEqual([0, null, -80]);
});

it('leaves out gains 100 dB below the highest, and never those around 0 dB', () => {
  expect(gainFloor(curve)).toBe(-80);
  expect(shownPoints(curve).map(({ gain_dB }) => gain_dB)).toEqual([20, 0, -40, null]);
  expect(gainFloor({ ...curve, gain_dB: [120, 0, -20, -59] })).toBeNull();
});

it('draws nothing beyond half the sampling rate, and states no floor for what lies there', () => {
  const sampled = { ...curve, half_sampling_Hz: 100 };
  expect(endOf(sampled)).toBe(100);
  expect(shownPoints(sampled)).toHaveLength(3);
  expect(gainFloor(sampled)).toBeNull();
});
