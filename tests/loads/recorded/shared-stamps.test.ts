/** Several values of one stamp are two devices, a clock that stood still, or rounded stamps: three energies, so it is asked. */
import { describe, expect, it } from 'vitest';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';

const rows = (count: number, row: (k: number) => string): string =>
  Array.from({ length: count }, (_, k) => `${row(k)}\n`).join('');
const power_W = (k: number): number => 500 + 90 * Math.sin(k * k);
const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'a.csv', sha256: '' }, { ...plainReading, ...reading });

const twoDevices = `time_s,power_W\n${rows(400, (k) => `${(k >> 1) * 0.02},${power_W(k).toFixed(3)}`)}`;

describe('values that share a stamp are refused with the ways out', () => {
  it('two devices of which no column tells', () => {
    expect(() => read(twoDevices)).toThrow('200 of 400 samples at a stamp that has another value already');
    expect(() => read(twoDevices)).toThrow('--channel none where the stamps of one channel are rounded');
  });

  it('devices of two keys, of which one is named', () => {
    const text = `time_s,node,gpu,power_W\n${rows(800, (k) => `${(k >> 2) * 0.02},n${k % 2},g${(k >> 1) % 2},${power_W(k).toFixed(3)}`)}`;
    expect(() => read(text, { channel: 'gpu' })).toThrow(
      'a column node with 2 values that come again and again in rows of one gpu',
    );
    const numbered = text.replaceAll(/,n(\d),/g, ',$1,');
    expect(() => read(numbered, { channel: 'gpu' })).toThrow(
      'samples at a stamp of one gpu that has another value already',
    );
  });

  it('a clock that stood still for a while', () => {
    const text = `time_s,power_W\n${rows(800, (k) => `${(0.02 * (k > 400 && k < 440 ? 400 : k)).toFixed(2)},${power_W(k).toFixed(3)}`)}`;
    expect(() => read(text)).toThrow('one is wrong where a clock stood still');
  });

  it('and are taken as the mean of each where that is said', () => {
    const { statement } = read(twoDevices, { channel: 'none' });
    expect(statement.total.mean_W).toBeCloseTo(500, -1);
  });

  it('a few of them are merged, as before', () => {
    const text = `time_s,power_W\n${rows(800, (k) => `${(0.02 * (k % 200 === 7 ? k - 1 : k)).toFixed(2)},${power_W(k).toFixed(3)}`)}`;
    expect(read(text).statement.duplicates_count).toBe(4);
  });
});
