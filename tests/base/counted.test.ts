import { expect, test } from 'vitest';
import { counted } from '../../src/base/counted.ts';

test('counted() takes the singular for one alone', () => {
  expect([0, 1, 2].map((n) => counted(n, 'shelf', 'shelves'))).toEqual(['0 shelves', '1 shelf', '2 shelves']);
  expect([counted(1, 'feeder'), counted(21, 'feeder')]).toEqual(['1 feeder', '21 feeders']);
});
