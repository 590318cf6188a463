import { expect, test } from 'vitest';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';

const watts = Array.from({ length: 60 }, (_, k) => 700 + 37 * (k % 23));
const file = (cell: (power_W: number) => string, stamp: (k: number) => string = (k) => `${20 * k}`): string =>
  `time_ms;power_W\n${watts.map((power_W, k) => `${stamp(k)};${cell(power_W)}\n`).join('')}`;
const read = (text: string) => readRecorded(text, { file: 'a.csv', sha256: '' }).statement.total.max_W;

test('whole numbers beside points with three digits behind each may be thousands: it is asked, and not read as 1.161 W', () => {
  const german = (power_W: number): string =>
    power_W < 1000 ? `${power_W}` : `${(power_W / 1000).toFixed(3)}`;
  expect(() => read(file(german))).toThrow('which may be 1033 or 1.033');
});

test('decimals that were all written out, or in a file whose stamps have points, are read', () => {
  expect(read(file((power_W) => (power_W / 1000).toFixed(3)))).toBeCloseTo(1.514, 6);
  expect(read(file((power_W) => `${power_W}`))).toBe(1514);
});
