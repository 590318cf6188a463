import { expect, it } from 'vitest';
import { BadInput } from '../../../src/base/problem.ts';
import {
  acceptanceLines,
  acceptanceWith,
  lacks,
  letterOf,
  usualAcceptance,
} from '../../../src/studies/gains/accept.ts';
import { empty, type GainsCell } from '../../../src/studies/gains/cell.ts';

const good: GainsCell = {
  ...empty(''),
  ...{ stable: true, reason: null, damping_ratio: 0.4, damping_fast_ratio: 0.2, clearance_ratio: 0.7 },
  ...{ settling_s: 0.4, overshoot_ratio: 0.1, steady_error_ratio: 0.01 },
};

it('a changed criterion decides, and the lines say what it usually is', () => {
  const changed = acceptanceWith(['settling=0.3 s', 'overshoot=5 %']);
  expect(changed).toEqual({ ...usualAcceptance, settling_s: 0.3, overshoot_ratio: 0.05 });
  expect(lacks(good, usualAcceptance)).toBe(null);
  expect(lacks(good, changed)).toBe('settles slower than 0.3 s');
  expect(acceptanceLines(changed)[3]).toMatch(
    /at most 0.3 s \(asked for; usually 0.5 s, common practice, no source/,
  );
});

it('every criterion has its letter', () => {
  const letter = (part: Partial<GainsCell>): string => {
    return letterOf({ ...good, ...part }, usualAcceptance);
  };
  expect(
    [
      {},
      { damping_ratio: 0.2 },
      { damping_fast_ratio: 0.1 },
      { clearance_ratio: 0.5 },
      { settling_s: null },
      { overshoot_ratio: 0.3 },
      { steady_error_ratio: 0.06 },
      { stable: false },
    ].map(letter),
  ).toEqual(['·', 'd', 'd', 'm', 's', 'o', 'e', 'U']);
});

it('all that is wrong with criteria is told at once', () => {
  try {
    acceptanceWith(['setling=1 s', 'overshoot=120 %', 'settling=5 V', 'damping']);
    throw new Error('nothing was refused');
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    expect(error.problems.map(({ path }) => path)).toEqual([
      '--accept setling',
      '--accept overshoot',
      '--accept settling',
      '--accept damping',
    ]);
    expect(error.problems[0]!.mend).toContain('settling');
  }
});
