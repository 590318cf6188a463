/** Columns that say something of the readings, and voltages that are none of a bus: nothing of them is passed over in silence. */
import { describe, expect, test } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../../../src/loads/recorded/recorded-load.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { busy } from '../../samples/signs/known-signal.ts';

const device = busy(300);
const read = (
  head: string,
  row: (power_W: number, k: number) => readonly (number | string)[],
  reading: Partial<RecordedReading> = {},
): RecordedLoad =>
  readRecorded(
    `t_s,${head}\n${Array.from(device, (v, k) => `${k / 50},${row(v, k).join(',')}\n`).join('')}`,
    { file: 'a.csv', sha256: '' },
    { ...plainReading, ...reading },
  );

describe('which readings hold', () => {
  const marked = (reading: Partial<RecordedReading> = {}) =>
    read('power_W,valid', (v, k) => (k % 10 === 0 ? [900, 0] : [v, 1]), reading);

  test('is asked, and taken by --where', () => {
    expect(() => marked()).toThrow(
      /column valid with 1 in 270, 0 in 30 of 300 rows: by its name it says which readings hold.*--where "valid=1".*--overrule/s,
    );
    expect(marked({ where: ['valid=1'] }).statement.total.max_W).toBeLessThan(800);
    expect(marked({ overrule: true }).statement.warnings.join(' ')).toMatch(/Overruled.*column valid/);
  });

  test('is not asked where all say the same, nor of a column of many values', () => {
    expect(read('power_W,valid', (v) => [v, 1]).statement.warnings).toEqual([]);
    expect(read('power_W,link_quality', (v, k) => [v, k % 17]).statement.warnings).toEqual([]);
  });
});

test('cells of a state may say it, and what says so of something else is left alone', () => {
  const with_ = (name: string, cell: (k: number) => string | number): string[] => [
    ...read(`power_W,${name}`, (v, k) => [v, cell(k)]).statement.warnings,
  ];
  expect(() => with_('status', (k) => (k % 20 === 0 ? 'FAULT' : 'OK'))).toThrow(
    /its cells say which readings hold/,
  );
  expect(() => with_('stale', (k) => (k % 20 === 0 ? 1 : 0))).toThrow(
    /by its name it says which readings hold/,
  );
  expect(() => with_('gain', () => 10)).toThrow(/are to be multiplied by it/);
  for (const name of ['status', 'link_quality', 'batch_ok', 'valid_until', 'loss_scale', 'power_factor'])
    expect(with_(name, (k) => (k % 2 === 0 ? 0.98 : 0.97))).toEqual([]);
  expect(with_('scale', () => 'linear')).toEqual([]);
});

test('by what they are to be multiplied', () => {
  expect(() => read('power_W,multiplier', (v) => [v / 10, 10])).toThrow(
    /column multiplier with 10 in 300 of 300 rows: by its name the readings are to be multiplied by it/,
  );
  expect(read('power_W,scale', (v) => [v, '1.0']).statement.warnings).toEqual([]);
});

describe('a voltage', () => {
  const warnings = (volts: number, reading: Partial<RecordedReading> = {}): string =>
    read('current_A,voltage_V', (v) => [v / 50, volts + v / 1e4], reading).statement.warnings.join(' ');

  test('beyond low voltage may be of another unit; that of the mains makes an apparent power', () => {
    expect(warnings(50_000)).toMatch(/voltage_V reaches 50 kV, beyond 1500 V, .* its unit may be another/);
    expect(warnings(0.052)).toMatch(/less than the bus of any rack: its unit may be another/);
    expect(warnings(231)).toMatch(/voltage_V lies at 231\.\d V, as mains of 230 V do: .* apparent power/);
    for (const bus of [48, 54, 400, 800]) expect(warnings(bus)).toBe('');
  });

  test('that falls before its current rises is of another clock', () => {
    const late = (by: number) =>
      read('current_A,voltage_V', (_, k) => [
        (device[Math.max(0, k - by)]! / 50).toFixed(3),
        (52 - device[k]! / 1000).toFixed(4),
      ]).statement.signs.map(({ shows }) => shows);
    expect(late(0)).toEqual([]);
    expect(late(6)).toEqual(['voltage_V does what current_A does, 120 ms earlier']);
  });
});
