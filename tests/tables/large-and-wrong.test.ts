import { expect, test } from 'vitest';
import { readRecorded } from '../../src/loads/recorded/read-recorded.ts';

const read = (text: string) => readRecorded(text, { file: 'a.csv', sha256: '' });

test('a file without a row is given up at its first hundred thousand lines', () => {
  const wrong = 'time_s,power_W\n'.concat('0,abc\n'.repeat(150_000));
  expect(() => read(wrong)).toThrow('a.csv:2\n  found     100000 lines in which no row can be read');
  // One row is enough to read on: what the file is worth is said of all of it.
  expect(() => read(`${wrong}1,5\n`.replace('0,abc', '0,5'))).not.toThrow('no row can be read');
});

test('a mark that parts the cells of later lines is still told among lines that are no rows', () => {
  expect(() => read(`time_s,power_W\n${'0,5\n1,abc\n'.repeat(300)}2;5\n`)).toThrow('parted by semicolons');
});

test('columns without end are not summed by their names', () => {
  const names = Array.from({ length: 20_000 }, (_, k) => `p${k}_W`);
  const rows = [0, 1].map((t) => [t, ...names.map(() => 1)].join(','));
  const wide = [['time_s', ...names].join(','), ...rows].join('\n');
  expect(() => read(wide)).toThrow('20000 columns that may be summed');
});
