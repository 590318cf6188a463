import { expect, test } from 'vitest';
import { readRecorded } from '../../src/loads/recorded/read-recorded.ts';

test('a first line of hundreds of thousands of letters is looked through once', () => {
  const long = 'x'.repeat(900_000);
  expect(() => readRecorded(long, { file: 'a.csv', sha256: '' })).toThrow('one column, xxx');
  expect(() => readRecorded(`${' '.repeat(900_000)}x`, { file: 'a.csv', sha256: '' })).toThrow('a.csv');
});
