/** Columns that are not what they are called, found by their sizes before anything is placed. */
import { describe, expect, test } from 'vitest';
import type { Curves } from '../../src/measured/curve/curve.ts';
import { mistakenColumns } from '../../src/measured/mistaken-columns.ts';

const [bus, shelf] = ['A.S1.voltage_V', 'S1.current_A'] as const;
const time_s = Float64Array.from({ length: 200 }, (_, k) => k * 1e-3);
const volts = time_s.map((t) => 50.3 - (t < 0.05 ? 0 : 0.2));
const amperes = time_s.map((t) => (t < 0.05 ? 60 : 240));
const curves: Pick<Curves, 'of'> = {
  of: new Map([
    [bus, { channel: bus, time_s, values: volts }],
    [shelf, { channel: shelf, time_s, values: amperes }],
  ]),
};
const said = (v: Float64Array, i: Float64Array): string[] =>
  mistakenColumns(
    [
      { channel: bus, values: v },
      { channel: shelf, values: i },
    ],
    curves,
  );

describe('mistakenColumns()', () => {
  test('says nothing of columns that lie where the model does, or a little beside', () => {
    expect(said(volts, amperes)).toEqual([]);
    expect(
      said(
        volts.map((v) => v - 2),
        amperes.map((i) => 1.3 * i),
      ),
    ).toEqual([]);
  });

  test('names a turned sign with the way out', () => {
    expect(
      said(
        volts,
        amperes.map((i) => -i),
      ),
    ).toEqual([
      'S1.current_A has the other sign: about -240 A measured, 240 A simulated. Turn the probe, or declare it by --sensor "S1.current_A=KIND, scale -1".',
    ]);
  });

  test.each([
    [
      1000,
      'about 1000 times what the model shows: 50.1 kV measured, 50.1 V simulated. Where its column is in mV, name it so: A.S1.voltage_mV.',
    ],
    [
      0.001,
      'about 0.001 times what the model shows: 50.1 mV measured, 50.1 V simulated. Where its column is in kV, name it so: A.S1.voltage_kV.',
    ],
  ])('names a unit that is off by %d', (factor, words) => {
    expect(
      said(
        volts.map((v) => factor * v),
        amperes,
      ),
    ).toEqual([`A.S1.voltage_V is ${words}`]);
  });

  test('names two columns that are exchanged, and neither of them for its unit', () => {
    expect(said(amperes, volts)).toEqual([
      'A.S1.voltage_V and S1.current_A look exchanged: the column of A.S1.voltage_V is about 240, that of S1.current_A about 50.1, where the model shows 50.1 V and 240 A. Exchange them by --map.',
    ]);
  });

  test('takes a current that flows both ways for no turned one', () => {
    const bothWays = amperes.map((_, k) => (k % 2 === 0 ? 200 : -200));
    expect(said(volts, bothWays)).toEqual([]);
  });
});
