/** The load scaled as a whole: every power of it, or the scale at which a recording is played. */
import { BadInput } from '../../src/base/problem.ts';
import { formatQuantity, readQuantity } from '../../src/base/quantity.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import { digits } from '../../src/studies/rating/scales.ts';
import type { Lever } from '../engine/worker/lever.ts';
import type { Field } from './field.ts';
import { leverField } from './lever-field.ts';

const asRun = '100 %';
const range = { low: 0.5, high: 1.5, scale: 'even' } as const;

/** Null where the load has no power that could be scaled. */
export function loadField(load: readonly Lever[], changed: () => void): Field | null {
  const powers = load.flatMap(({ path, quantity }) => (quantity === null ? [] : [{ path, ...quantity }]));
  if (powers.length === 0) return null;
  const named = powers.map(({ path }) => path).join(', ');
  const field = leverField(
    {
      path: 'load',
      means: `all of it, times this: ${named}`,
      text: asRun,
      quantity: { dimension: 'ratio', value: 1, range },
      words: null,
    },
    changed,
  );
  return {
    ...field,
    changes: () =>
      field.changes().flatMap(({ value: text }): readonly Change[] => {
        const reading = readQuantity(text, 'ratio');
        if (!reading.ok) throw new BadInput([{ severity: 'error', path: 'load', ...reading }]);
        return powers.map(({ path, value, dimension }) => ({
          path,
          value: formatQuantity(value * reading.value, dimension, digits),
        }));
      }),
  };
}
