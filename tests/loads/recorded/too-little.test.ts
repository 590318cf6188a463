import { expect, test } from 'vitest';
import { readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const warnings = (scale: number): string =>
  readRecorded(
    `time_s,power_W\n${Array.from(busy(200), (v, k) => `${k / 50},${(scale * v).toFixed(4)}\n`).join('')}`,
    { file: 'a.csv', sha256: '' },
  ).statement.warnings.join(' ');

test('kilowatts under the name of watts are told by what no device of a rack draws', () => {
  expect(warnings(1e-3)).toMatch(/^power_W reaches 7\d\d(\.\d)? mW at most, .* another than its name says/);
  expect(warnings(1)).toBe('');
});
