import { expect, test } from 'vitest';
import { loadPeriod } from '../../../src/analysis/signal/load-period.ts';
import { loadMeans, pulses } from '../load-means.ts';

test('loadPeriod() finds the beat of a load whose pulses wander', () => {
  const wandering = loadMeans(40, (t) => pulses(t + 0.04 * Math.sin(t * 0.9)));
  expect(loadPeriod(wandering.means, 0.01)).toBeCloseTo(1.6, 1);
});

test('loadPeriod() finds none in a flat load, a single step or one shorter than three beats', () => {
  expect(loadPeriod(loadMeans(30, () => 100).means, 0.01)).toBeNull();
  expect(loadPeriod(loadMeans(30, (t) => (t < 15 ? 100 : 240)).means, 0.01)).toBeNull();
  expect(loadPeriod(loadMeans(4, pulses).means, 0.01)).toBeNull();
});
