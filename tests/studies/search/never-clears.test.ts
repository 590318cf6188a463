import { describe, expect, it } from 'vitest';
import type { SearchResult, Tried } from '../../../src/studies/search/least-passing.ts';
import { nearestOf } from '../../../src/studies/search/never-clears.ts';

function foundOf(...rows: readonly Readonly<Record<string, number>>[]): SearchResult {
  const tried = new Map(
    rows.map((row, k): [number, Tried] => [k, { passes: false, headrooms: new Map(Object.entries(row)) }]),
  );
  return { least: null, tried, reversed: [], whole: true };
}

describe('nearestOf()', () => {
  it('names the limit that is broken everywhere, and where it came nearest', () => {
    const found = foundOf(
      { ramp: -0.5, ripple: 0.3 },
      { ramp: -0.1, ripple: -0.2 },
      { ramp: -0.4, ripple: 0.1 },
    );
    expect(nearestOf(found)).toEqual({ key: 'ramp', headroom: -0.1, at: 1 });
  });

  it('takes the one whose best showing is worst where several are broken everywhere', () => {
    const found = foundOf({ ramp: -0.5, sag: -0.7 }, { ramp: -0.1, sag: -0.6 });
    expect(nearestOf(found)).toEqual({ key: 'sag', headroom: -0.6, at: 1 });
  });

  it('where limits exclude each other gives what is tightest at the candidate that came nearest', () => {
    const found = foundOf({ share: 0.4, sag: -0.3 }, { share: -0.05, sag: 0.02 }, { share: -0.6, sag: 0.5 });
    expect(nearestOf(found)).toEqual({ key: 'share', headroom: -0.05, at: 1 });
  });

  it('counts a limit that is judged in some situations only by where it is judged', () => {
    const found = foundOf({ ramp: -0.2 }, { ramp: -0.3, charge: -0.25 });
    expect(nearestOf(found)).toEqual({ key: 'charge', headroom: -0.25, at: 1 });
  });
});
