import { expect, it } from 'vitest';
import { once } from '../../../src/analysis/record/once.ts';

it('once() works something out once for each object that it is asked of', () => {
  let asked = 0;
  const length = once((text: { readonly of: string }) => {
    asked++;
    return text.of.length;
  });
  const [a, b] = [{ of: 'abc' }, { of: '' }];
  expect([length(a), length(b), length(a), length(b)]).toEqual([3, 0, 3, 0]);
  expect(asked).toBe(2);
});
