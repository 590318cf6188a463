/** A warning speaks of what was asked for. */
import { expect, it } from 'vitest';
import { readShipped } from '../shipped.ts';

const warned = (...pairs: readonly (readonly [string, string])[]) =>
  readShipped('scenarios/single-step.yaml', [], {
    changes: pairs.map(([path, value]) => ({ path, value })),
  }).warnings.map(({ path, found }) => [path, found]);

it('names all units where all were asked for', () => {
  expect(warned(['banks.capacitance', '600 mF'])).toEqual([['banks.capacitance', '600 mF']]);
});

it('names one unit where one was asked for, beside all or alone', () => {
  expect(warned(['banks.K2.capacitance', '600 mF'])).toEqual([['banks.K2.capacitance', '600 mF']]);
  expect(warned(['banks.capacitance', '600 mF'], ['banks.K1.capacitance', '700 mF'])).toEqual([
    ['banks.K1.capacitance', '700 mF'],
    ['banks.capacitance', '600 mF'],
  ]);
});

it('refuses under it, too', () => {
  expect(() => warned(['trays.slow_share', '10 %'])).toThrow(/--set {2}trays\.slow_share\n/);
});
