/** The sensing delay of a continuous voltage loop, written where the loop is sampled. */
import { expect, it } from 'vitest';
import { readShipped } from './shipped.ts';

const told = (changes: Readonly<Record<string, string>>): string[] =>
  readShipped('scenarios/bench-step.yaml', [], {
    changes: Object.entries(changes).map(([path, value]) => ({ path, value })),
  }).warnings.map(({ path, found }) => `${path}: ${found}`);

it('control_delay beside loop_period is told to do nothing', () => {
  const sampled = { 'shelves.loop_period': '50 us' };
  expect(told({ ...sampled, 'shelves.control_delay': '40 us' })).toEqual([
    'shelves.control_delay: 40 µs, which has no effect: loop_period samples the loop, every 50 µs',
  ]);
  // The model's own stands beside it without a word, and so does one of a continuous loop.
  expect(told(sampled)).toEqual([]);
  expect(told({ 'shelves.control_delay': '40 us' })).toEqual([]);
});
