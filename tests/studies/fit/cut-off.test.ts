/** A current whose instrument ends below most of what it reads: placed by the rest, and named as what it is. */
import { expect, test } from 'vitest';
import { cutOffAt } from '../../../src/measured/cut-off.ts';
import { faultOnStep } from './bench.ts';

test('a current that is cut off below its steps is placed by what is left of it, and named first', async () => {
  const { whole, faulty, placed, report } = await faultOnStep('current cut off');
  expect(faulty.columns.map(cutOffAt)).toEqual([[], [Math.max(...faulty.columns[1]!.values)]]);
  expect(whole.columns.map(cutOffAt)).toEqual([[], []]);
  expect(placed.aligned).toBe('found');
  expect(Math.abs(placed.at_s - 0.01)).toBeLessThan(0.001);
  expect(report.would_explain[0]).toMatchObject({
    kind: 'readings',
    path: 'S1.current_A',
    words: expect.stringMatching(/cut off|clipped/),
  });
});
