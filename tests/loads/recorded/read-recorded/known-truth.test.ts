import { describe, expect, test } from 'vitest';
import { plainReading, RecordedReader } from '../../../../src/loads/recorded/read-recorded.ts';
import { hat, lines, read } from './hat.ts';

describe('readRecorded() reads ugly files to their known truth:', () => {
  test('long form, microseconds from 1970, milliwatts, blocks of one device after the other', () => {
    const rows = ['0', '1'].flatMap((device) =>
      hat.stamps.map((k, i) => `${1795591743000000 + k * 100000},${device},${hat.watts[i]! * 1000}`),
    );
    const { statement: s } = read(lines('timestamp_us,accelerator,power_mW', ...rows));
    expect(s.channels.map((c) => [c.name, c.energy_J])).toEqual([
      ['0', expect.closeTo(hat.energy_J, 9)],
      ['1', expect.closeTo(hat.energy_J, 9)],
    ]);
    expect(s.total.energy_J).toBeCloseTo(2 * hat.energy_J, 9);
    expect(s.total.max_W).toBe(600);
    expect([s.rows, s.unsorted_count, s.duplicates_count, s.gaps_count]).toEqual([10, 1, 0, 0]);
    expect(s.start).toBe('2026-11-25T07:29:03.000000Z');
    expect(s.duration_s).toBe(0.4);
    expect(s.rate_median_Hz).toBeCloseTo(10, 9);
    expect(s.bandwidth_Hz).toBeCloseTo(4.4, 9);
  });

  test('wide form with numbered columns, which are summed', () => {
    const { statement: s } = read(lines('t_s,gpu0_W,gpu1_W', '0,100,50', '0.5,100,70', '1,100,50'));
    expect(s.channels.map((c) => [c.name, c.mean_W])).toEqual([
      ['gpu0_W', 100],
      ['gpu1_W', 60],
    ]);
    expect(s.total).toMatchObject({ mean_W: 160, min_W: 150, max_W: 170, energy_J: 160 });
    expect(s.start).toBeNull();
  });

  test('dates with offsets, cells with their unit, tabs and Windows line ends', () => {
    const text =
      'time\tpower.draw\r\n2030-01-31 12:00:00.000+01:00\t100 W\r\n2030-01-31T11:00:00.5Z\t0.2 kW\r\n';
    const { statement: s } = read(text);
    expect(s.start).toBe('2030-01-31T11:00:00.000000Z');
    expect(s.total.energy_J).toBe(75);
    expect(s.inferred).toContain('Power cells carry their unit (2 cells).');
  });

  test('dates without a zone are read as UTC, and it is said', () => {
    const { statement: s } = read(lines('date,power (kW)', '2030-03-31T01:59:59,1', '2030-03-31T02:00:01,1'));
    expect(s.duration_s).toBe(2);
    expect(s.total.energy_J).toBe(2000);
    expect(s.inferred).toContain('Dates without a zone are read as UTC.');
  });

  test('nanoseconds from 1970 keep their nanoseconds', () => {
    const { total } = read(lines('ts_ns,power_W', '1795591743860052001,1', '1795591743860052004,1'));
    expect(total.time_s[1]).toBe(3e-9);
  });

  test('a column named time in broken seconds is seconds, and it is said', () => {
    const { statement: s } = read(lines('time,power_W', '0.0,1', '0.25,1', '0.5,1'));
    expect(s.duration_s).toBe(0.5);
    expect(s.inferred).toContain('Stamps in time are seconds: fractions less than 1 apart.');
  });

  test('seconds from 1970 without a unit in the name are known by their size', () => {
    const { statement: s } = read(lines('timestamp,power_W', '1795591743.25,1', '1795591743.75,3'));
    expect(s.start).toBe('2026-11-25T07:29:03.250000Z');
    expect(s.total.energy_J).toBe(1);
  });

  test('semicolons and decimal commas', () => {
    const { statement: s } = read(lines('t_s;power_W', '0;99,5', '1;100,5', '2;99,5'));
    expect(s.total.mean_W).toBe(100);
    expect(s.inferred).toContain('Commas in powers are decimal commas (3 cells).');
  });

  test('empty, non-numeric and negative powers are left out, counted and never zero', () => {
    const { statement: s, total } = read(
      lines('t_s,power_W', '0,100', '1,', '2,N/A', '3,-5', '4,100', 'oops,100', '5,100', '6,1,2,3'),
    );
    expect(total.power_W.every((p) => p === 100)).toBe(true);
    expect(s.rows).toBe(8);
    expect(s.edits.map((e) => [e.count, e.what])).toEqual([
      [1, 'row without a readable stamp left out'],
      [1, 'row with more cells than the header left out'],
      [1, 'empty power left out'],
      [1, 'power that is no number left out'],
      [1, 'negative power left out'],
      [1, 'gap bridged by a straight line'],
    ]);
    expect(s.edits[4]).toMatchObject({ energy_before_J: 3 * 47.5 + 47.5 + 100, energy_after_J: 500 });
  });

  test('a gap is bridged by a straight line, counted with its time and energy, and is no zero load', () => {
    const rows = [0, 1, 2, 3, 4, 5, 6, 7, 20, 21, 22].map((t) => `${t},${t < 20 ? 100 : 200}`);
    const { statement: s } = read(lines('t_s,power_W', ...rows));
    expect([s.gaps_count, s.gap_total_s]).toEqual([1, 13]);
    expect(s.total.min_W).toBe(100);
    expect(s.edits).toEqual([
      {
        what: 'gap bridged by a straight line',
        count: 1,
        energy_before_J: 700 + 400,
        energy_after_J: 700 + 13 * 150 + 400,
      },
    ]);
  });

  test('a dropout of all channels at once is one gap', () => {
    const rows = [0, 1, 2, 3, 4, 5, 20, 21, 22].map((t) => `${t},10,20`);
    expect(read(lines('t_s,gpu0_W,gpu1_W', ...rows)).statement).toMatchObject({
      gaps_count: 1,
      gap_total_s: 15,
    });
  });

  test('equal stamps are merged to the mean of their powers', () => {
    const { statement: s, total } = read(lines('t_s,power_W', '0,100', '1,100', '1,300', '2,100', '2,100'));
    expect(s.duplicates_count).toBe(2);
    expect([...total.power_W]).toEqual([100, 200, 100]);
    expect(s.edits[0]).toEqual({
      what: 'samples of one stamp merged to their mean',
      count: 2,
      energy_before_J: 300,
      energy_after_J: 300,
    });
  });

  test('stamps that run backward are counted and sorted', () => {
    const { statement: s, total } = read(lines('t_s,power_W', '2,30', '0,10', '1,20', '3,40'));
    expect(s.unsorted_count).toBe(1);
    expect([...total.time_s]).toEqual([0, 1, 2, 3]);
    expect([...total.power_W]).toEqual([10, 20, 30, 40]);
  });

  test('channels with stamps of their own keep every kink, and the energies agree over the common span', () => {
    const { statement: s, total } = read(
      lines('t_s,channel,power_W', '0,a,0', '2,a,200', '4,a,0', '1,b,10', '3,b,30', '5,b,10'),
    );
    expect([...total.time_s]).toEqual([1, 2, 3, 4]);
    expect([...total.power_W]).toEqual([110, 220, 130, 20]);
    expect(s.total).toMatchObject({ from_s: 1, to_s: 4, energy_J: 165 + 175 + 75 });
    expect(s.edits.at(-1)?.what).toBe(
      'channels summed at every stamp of any, ends covered by some only (up to 1.00 s) left out',
    );
  });

  test('a byte order mark, comments, blank lines and quoted cells', () => {
    const { statement: s } = read('\uFEFF# made by hand\n\n"t_s","power, total (W)"\n"0","100"\n\n1,"100"\n');
    expect(s.total.energy_J).toBe(100);
  });

  test('column names behind a #, and a delimiter too many at every line end', () => {
    const { statement: s } = read('# t_s;power_W\n0;100\n1;300\n');
    expect(s.total.energy_J).toBe(200);
    expect(s.inferred).toContain('Columns are named by a line that starts with #.');
    expect(read('t_s,power_W,\n0,100,\n1,300,\n').statement.total.energy_J).toBe(200);
  });

  test('samples of exactly 0 W stay and are counted', () => {
    const { statement: s } = read(lines('t_s,power_W', '0,100', '1,0', '2,100'));
    expect([s.total.min_W, s.channels[0]!.zero_count]).toEqual([0, 1]);
  });

  test('a frozen sensor, a flat top and the smallest step are named', () => {
    const watts = [1, 2, 5, 5, 5, 5, 3, 3, 2.5];
    const { statement: s } = read(lines('t_s,power_W', ...watts.map((p, t) => `${t},${p}`)));
    expect(s.channels[0]).toMatchObject({ stale_count: 4, stale_s: 3, flat_top_count: 4, resolution_W: 0.5 });
    expect(s.channels[0]!.repeat_ratio).toBe(0.5);
  });

  test('text that arrives in pieces of any size gives the same as in one', () => {
    const text =
      't_s,device,power_mW\r\n0,a,100\r\n0.1,"b",200\r\n0.2,a,300\r\n0.3,b,400\r\n0.4,a,1\r\n0.5,b,2\r\n';
    const whole = read(text);
    for (let size = 1; size < 12; size++) {
      const reader = new RecordedReader('load.csv', plainReading);
      for (let at = 0; at < text.length; at += size) reader.push(text.slice(at, at + size));
      expect(reader.finish('sum')).toEqual(whole);
    }
  });
});
