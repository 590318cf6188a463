import { expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';

const text = (lacks: (k: number) => boolean): string =>
  `time_s,a_W,b_W,temp_C\n${Array.from({ length: 100 }, (_, k) => `${k / 10},${400 + (k % 7)},${lacks(k) ? '' : `${300 + (k % 5)},`}50\n`).join('')}`;
const warnings = (rows: string): readonly string[] =>
  readRecorded(rows, { file: 'a.csv', sha256: '' }, { ...plainReading, power: ['2'], time: '1' }).statement
    .warnings;

test('rows that lack a cell among others that do not are a warning: their values may stand in the wrong column', () => {
  expect(warnings(text((k) => k % 4 === 0))).toContain(
    '25 rows of 100 have fewer cells than the header: which cell is missing nobody knows, and a value may stand in the wrong column.',
  );
  expect(warnings(text(() => false))).toEqual([]);
  expect(
    warnings(
      `${'t_s,power_W,\n'}${Array.from({ length: 60 }, (_, k) => `${k},${400 + (k % 7)}\n`).join('')}`,
    ),
  ).toEqual([]);
});
