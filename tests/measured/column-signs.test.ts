/** What columns of a measurement show by themselves, in whatever unit. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { columnSigns, signWarning } from '../../src/measured/column-signs.ts';

const time_s = Float64Array.from({ length: 400 }, (_, k) => k * 1e-3);
/** Readings about a level, to a tenth of their noise. */
function noisy(level: number, noise: number, seed: number): Float64Array {
  const random = new Random(seed);
  const digit = noise / 10;
  return time_s.map(() => Math.round((level + noise * random.gaussian()) / digit) * digit);
}
const volts = noisy(50, 0.004, 1);
const amperes = noisy(200, 0.5, 2);
const kinds = (v: Float64Array, i: Float64Array): string[] =>
  columnSigns([
    { channel: 'A.S1.voltage_V', time_s, values: v },
    { channel: 'S1.current_A', time_s, values: i },
  ]).map(({ kind, channel }) => `${channel} ${kind}`);

describe('columnSigns()', () => {
  test('sees none in noise of two channels', () => {
    expect(kinds(volts, amperes)).toEqual([]);
  });

  test('sees a voltage and a current that are the same numbers', () => {
    expect(kinds(volts, volts)).toEqual(['S1.current_A twin']);
  });

  test('sees a channel that is cut off above, and below', () => {
    const swing = (values: Float64Array, by: number): Float64Array =>
      values.map((v, k) => v + by * Math.sin(k / 20));
    const [v, i] = [swing(volts, 0.1), swing(amperes, 20)];
    expect(kinds(v, i)).toEqual([]);
    const above = v.map((value) => Math.min(value, 50.08));
    expect(kinds(above, i)).toEqual(['A.S1.voltage_V clipped']);
    const below = i.map((value) => Math.max(value, 184));
    expect(kinds(v, below)).toEqual(['S1.current_A clipped']);
  });

  test('sees a frozen stretch and a unit that changes', () => {
    expect(
      kinds(
        volts.map((v, k) => (k > 200 && k < 260 ? 50 : v)),
        amperes,
      ),
    ).toEqual(['A.S1.voltage_V frozen']);
    expect(
      kinds(
        volts,
        amperes.map((i, k) => (k < 200 ? i : 1000 * i)),
      ),
    ).toEqual(['S1.current_A two scales']);
  });

  test('sees a current that stands still all along, and no such voltage', () => {
    const all = (value: number): Float64Array => new Float64Array(time_s.length).fill(value);
    expect(
      columnSigns([{ channel: 'S1.current_A', time_s, values: all(200) }]).map(({ kind }) => kind),
    ).toEqual(['frozen']);
    expect(columnSigns([{ channel: 'A.S1.voltage_V', time_s, values: all(50) }])).toEqual([]);
    expect(columnSigns([{ channel: 'T1.charge_ratio', time_s, values: all(0.8) }])).toEqual([]);
  });

  test('sees rows that came at once, of whatever columns', () => {
    let now = 0;
    const rushed = time_s.map((_, k) => (now += k > 100 && k <= 150 ? 1e-5 : 1e-3));
    const columns = [
      { channel: 'A.S1.voltage_V', time_s: rushed, values: volts },
      { channel: 'S1.current_A', time_s: rushed, values: amperes },
    ];
    expect(columnSigns(columns).map(({ kind }) => kind)).toEqual(['hurried']);
  });

  test('says times as those of the file', () => {
    const [sign] = columnSigns([
      { channel: 'S1.current_A', time_s, values: amperes.map((i, k) => (k > 200 && k < 260 ? 200 : i)) },
    ]);
    expect(signWarning(sign!)).toMatch(
      /^In the file, by its own time: S1\.current_A stands at exactly 200 A .*\?$/,
    );
  });
});
