import { describe, expect, test } from 'vitest';
import { lines, read, refusal } from './hat.ts';

describe('what is thin or filled in is said:', () => {
  test('a single column is called one, with what is missing beside it', () => {
    expect(refusal('timestamp_us\n1\n2\n')).toContain('one column, timestamp_us');
    expect(refusal('timestamp_us\n1\n2\n')).toContain('export the power with the stamps');
    expect(refusal('power_W\n1\n2\n')).toContain('export the stamps with it');
    expect(refusal('1\n2\n3\n')).toContain('values in the first row: 1');
  });

  test('one of a thing is counted as one', () => {
    const rows = Array.from({ length: 30 }, (_, k) => `${k},${k === 4 ? -5 : 100}`);
    const { statement } = read(lines('t_s,power_W', ...rows));
    expect(statement.edits.map(({ count, what }) => `${count} ${what}`)).toEqual([
      '1 negative power left out',
      '1 gap bridged by a straight line',
    ]);
    expect(refusal(lines('t_s,power_W', '0,-1'))).toContain('1 row, none usable: 1 negative power\n');
  });

  test('a bridge that carries more than 1 % of the energy is a warning, one that carries less is not', () => {
    const bridged = (seconds: number) => {
      const rows = Array.from({ length: 1000 }, (_, k) => `${k < 500 ? k : k + seconds},100`);
      return read(lines('t_s,power_W', ...rows)).statement;
    };
    expect(bridged(7).edits).toHaveLength(1);
    expect(bridged(7).warnings).toEqual([]);
    expect(bridged(100).warnings).toEqual([
      '1 gap bridged by a straight line: that adds 9.2 % of the energy, which was not recorded.',
    ]);
  });
});
