/** What is wrong with an axis is told in the words of a map, under the option that asks for it. */
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import { axisOf } from '../../../src/studies/gains/axis.ts';
import { readShipped } from '../../scenario/shipped.ts';

const model = readShipped('scenarios/single-step.yaml');
const say = (words: string): string => {
  try {
    return axisOf('--x', words, model).values.join(' | ');
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
};

describe('an axis of a gains map', () => {
  it.each([
    ['5 ms to 1 ms in 3', '1 ms to 5 ms in 3'],
    ['1 s to 20 ms in 24 log', '20 ms to 1 s in 24 log'],
    ['5 ms | 1 ms', '1 ms | 5 ms'],
  ])('that descends, %s, is asked for from the least to the most', (written, mended) => {
    expect(say(`firmware.share.latency=${written}`)).toBe(
      [
        '--x  firmware.share.latency',
        `  found     values that do not ascend: ${written}`,
        '  expected  values from the least to the most',
        `  mend      write ${mended}`,
        '1 problem. Nothing was run.',
      ].join('\n'),
    );
  });

  it.each(['', 'nothing=1 to 2 in 3', 'firmware.share.latency=1 to 2 in 3', 'firmware.share.latency=1 ms'])(
    'is refused under its option: %s',
    (words) => {
      expect(say(words)).toMatch(/^--x\b/);
    },
  );
});
