import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ParameterSpec } from '../../../../src/scenario/parameter.ts';
import { placeOf, rangeOf, valueAt } from '../../../../web/engine/worker/range.ts';

const spec = (rest: Partial<ParameterSpec>): ParameterSpec => ({
  ...{ dimension: 'capacitance', symbol: 'C', means: 'a value', min: 0, max: 1e5 },
  ...rest,
});

describe('rangeOf', () => {
  it('is the usual range where one is declared, and holds the value', () => {
    expect(rangeOf(100, spec({ usual: [30, 400] }))).toEqual({ low: 30, high: 400, scale: 'ratio' });
    expect(rangeOf(20, spec({ usual: [30, 60] }))).toEqual({ low: 20, high: 60, scale: 'even' });
  });

  it('is a quarter to four times of the value where none is, and never leaves the bounds', () => {
    expect(rangeOf(2, spec({}))).toEqual({ low: 0.5, high: 8, scale: 'ratio' });
    expect(rangeOf(2, spec({ max: 3 }))).toEqual({ low: 0.5, high: 3, scale: 'even' });
    expect(rangeOf(-2, spec({ min: -10, max: 10 }))).toEqual({ low: -8, high: -0.5, scale: 'even' });
  });

  it('is none about a value of 0 without a usual range', () => {
    expect(rangeOf(0, spec({}))).toBeNull();
  });

  it('leads from end to end and back to the same place', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1 }),
        fc.constantFrom('even' as const, 'ratio' as const),
        (place, scale) => {
          const range = { low: 2, high: 50, scale };
          expect(placeOf(valueAt(place, range), range)).toBeCloseTo(place, 9);
          expect(valueAt(0, range)).toBe(2);
          expect(valueAt(1, range)).toBeCloseTo(50, 9);
        },
      ),
      { seed: 7, numRuns: 50 },
    );
    expect(placeOf(1, { low: 2, high: 50, scale: 'ratio' })).toBe(0);
    expect(valueAt(0.26, { low: 0, high: 10, scale: 'whole' })).toBe(3);
  });
});
