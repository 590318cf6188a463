/** The last line: cut while it was written, or a line of totals that looks like a sample. */
import { expect, test } from 'vitest';
import { file, read, rows, watts } from './known-load.ts';

const plain = rows((t, p) => [t.toFixed(1), p.toFixed(1)]);
const whole = file('t_s,power_W', plain).slice(0, -1);
const cutEdit = /last line left out, which no line break ends/;

test.each([
  ['inside its last number', whole.slice(0, -4)],
  ['behind its stamp', whole.slice(0, -7)],
])('cut %s it is left out, and said', (_, text) => {
  const { statement: s } = read(text);
  expect([s.rows, s.total.min_W, s.duration_s]).toEqual([20, 1000, 9.5]);
  expect(s.edits.map(({ what }) => what).join()).toMatch(cutEdit);
});

test.each([
  ['without a line break', whole],
  [
    'without a line break, a shorter note behind the power',
    file(
      't_s,power_W,note',
      plain.map((line, k) => `${line},${k === 20 ? 'on' : 'armed'}`),
    ).slice(0, -1),
  ],
  ['shorter, with a line break', file('t_s,power_W', plain.slice(0, 20), '10.0,1e3')],
])('whole it is a sample: %s', (_, text) => {
  const { statement: s } = read(text);
  expect([s.rows, s.edits]).toEqual([21, []]);
});

test('a stamped line of totals is a warning', () => {
  const sum_W = watts.reduce((a, b) => a + b);
  expect(read(file('t_s,power_W', plain, `10.5,${sum_W}`)).statement.warnings[0]).toBe(
    'The last sample of power_W, 25 kW, is the sum of all those before it: a line of totals, taken as a sample.',
  );
  expect(read(file('t_s,power_W', `-0.5,${sum_W}`, plain)).statement.warnings[0]).toMatch(
    /^The first sample of power_W, 25 kW, is the sum of all those behind it/,
  );
  expect(read(file('t_s,power_W', plain, `10.5,${1.001 * sum_W}`)).statement.warnings).toEqual([]);
});
