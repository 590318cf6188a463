import { expect, it } from 'vitest';
import {
  columnOf,
  meanOfSamples,
  mirroredBefore,
  readInto,
  roundAndRound,
  type Samples,
  stretchOf,
  through,
} from '../../../src/analysis/signal/samples.ts';

const five = Float64Array.of(1, 2, 3, 4, 5);
const doubled = (samples: Samples): Samples =>
  through(samples, (stretch) => {
    for (let j = 0; j < stretch.length; j++) stretch[j]! *= 2;
  });

/** Read in pieces of two, which begin and end anywhere. */
function byTwos(samples: Samples): number[] {
  const out: number[] = [];
  for (let first = 0; first < samples.length; first += 2) {
    const two = new Float64Array(Math.min(2, samples.length - first));
    readInto(two, samples, first);
    out.push(...two);
  }
  return out;
}

it('samples that are made are made where they are read, whatever the pieces', () => {
  for (const [samples, expected] of [
    [doubled(five), [2, 4, 6, 8, 10]],
    [stretchOf(doubled(five), 1, 3), [4, 6, 8]],
    [roundAndRound(five, 2), [1, 2, 3, 4, 5, 1, 2, 3, 4, 5]],
    [mirroredBefore(doubled(five), 3), [6, 4, 2, 2, 4, 6, 8, 10]],
  ] as const) {
    expect(byTwos(samples)).toEqual(expected);
    expect([...columnOf(samples)]).toEqual(expected);
  }
  expect([...five]).toEqual([1, 2, 3, 4, 5]);
});

it('meanOfSamples() is the mean, and no number without samples', () => {
  expect(meanOfSamples(doubled(five))).toBe(6);
  expect(meanOfSamples(new Float64Array(3000).fill(2))).toBe(2);
  expect(meanOfSamples(new Float64Array(0))).toBeNaN();
});
