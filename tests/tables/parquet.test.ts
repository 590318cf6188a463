/** Recordings as Parquet: what another program wrote is read to the same numbers as the text that says the same. */
import { parquetWriteBuffer } from 'hyparquet-writer';
import { describe, expect, test } from 'vitest';
import { plainReading, RecordedReader } from '../../src/loads/recorded/read-recorded.ts';
import type { RecordedReading } from '../../src/scenario/scenario.ts';
import { bytesAtHand, isParquet, parquetPieces } from '../../src/tables/rows/parquet-text.ts';

type ColumnData = Parameters<typeof parquetWriteBuffer>[0]['columnData'];

const written = (columnData: ColumnData, rowGroupSize = 100_000): Uint8Array =>
  new Uint8Array(parquetWriteBuffer({ columnData, rowGroupSize }));

const textOf = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  parquetPieces(bytesAtHand(bytes), 'load.parquet', (text) => pieces.push(text));
  return pieces.join('');
};

const read = (bytes: Uint8Array, reading: Partial<RecordedReading> = {}) => {
  const reader = new RecordedReader('load.parquet', { ...plainReading, ...reading });
  parquetPieces(bytesAtHand(bytes), 'load.parquet', (text) => reader.push(text));
  return reader.finish('sum');
};

const n = 10_001;
const times_s = Array.from({ length: n }, (_, k) => k / 1000);
const watts = times_s.map((_, k) => 1000 + Math.sin(k) * 300);

describe('a Parquet file', () => {
  test.each([1000, 4321, 100_000])('in row groups of %i is read bit for bit', (rowGroupSize) => {
    const bytes = written(
      [
        { name: 'time_s', data: times_s, type: 'DOUBLE' },
        { name: 'power_W', data: watts, type: 'DOUBLE' },
      ],
      rowGroupSize,
    );
    expect(isParquet(bytes)).toBe(true);
    const { total, statement } = read(bytes);
    expect(statement.rows).toBe(n);
    expect([...total.time_s]).toEqual(times_s);
    expect([...total.power_W]).toEqual(watts);
  });

  test.each([
    ['MILLIS', 'INT32', 1e3],
    ['MICROS', 'INT64', 1e6],
    ['NANOS', 'INT64', 1e9],
  ] as const)('reads times of day in %s as what they are, whatever their name says', (unit, type, per_s) => {
    const bytes = new Uint8Array(
      parquetWriteBuffer({
        columnData: [
          {
            name: 'time_s',
            data: times_s.map((t) =>
              type === 'INT32' ? Math.round(t * per_s) : BigInt(Math.round(t * per_s)),
            ),
          },
          { name: 'power_W', data: watts },
        ],
        schema: [
          { name: 'root', num_children: 2 },
          {
            name: 'time_s',
            type,
            repetition_type: 'REQUIRED',
            logical_type: { type: 'TIME', isAdjustedToUTC: false, unit },
          },
          { name: 'power_W', type: 'DOUBLE', repetition_type: 'REQUIRED' },
        ],
      }),
    );
    const { statement } = read(bytes);
    expect([statement.rows, statement.duration_s]).toEqual([n, 10]);
  });

  test('keeps stamps to the nanosecond, and the channels of a long form', () => {
    const bytes = written([
      {
        name: 'ts_ns',
        data: times_s.flatMap((_, k) => [
          1_900_000_000_000_000_000n + BigInt(k) * 1_000_003n,
          1_900_000_000_000_000_000n + BigInt(k) * 1_000_003n,
        ]),
        type: 'INT64',
      },
      { name: 'gpu', data: times_s.flatMap(() => ['a', 'b "1", c']), type: 'STRING' },
      { name: 'power_mW', data: watts.flatMap((p) => [500 * p, 500 * p]), type: 'DOUBLE' },
    ]);
    const { channels, statement } = read(bytes);
    expect(channels.map(({ name }) => name)).toEqual(['a', 'b "1", c']);
    expect(statement.duration_s).toBeCloseTo(10.00003, 12);
    expect(statement.start).toBe('2030-03-17T17:46:40.000000Z');
  });

  test('of dates, floats of 32 bits and missing values leaves what is missing out', () => {
    const some = times_s.slice(0, 100);
    const bytes = written([
      { name: 'time', data: some.map((_, k) => new Date(1.9e12 + 100 * k)), type: 'TIMESTAMP' },
      { name: 'power_W', data: some.map((_, k) => (k === 50 ? null : k < 50 ? 100 : 900)), type: 'FLOAT' },
      { name: 'note', data: some.map(() => 'x'), type: 'STRING' },
    ]);
    const { statement: s } = read(bytes);
    expect([s.total.min_W, s.total.max_W, s.rate_median_Hz]).toEqual([100, 900, expect.closeTo(10, 6)]);
    expect([s.gaps_count, s.gap_total_s]).toEqual([1, expect.closeTo(0.2, 9)]);
    expect(s.inferred.join()).toContain('Not used: note.');
  });

  test('cut short, empty or changed is refused with the way out, whatever is changed', () => {
    const bytes = written([
      { name: 'time_s', data: times_s.slice(0, 500), type: 'DOUBLE' },
      { name: 'power_W', data: watts.slice(0, 500), type: 'DOUBLE' },
    ]);
    for (const end of [4, 11, 500, bytes.length - 9, bytes.length - 1]) {
      expect(() => textOf(bytes.slice(0, end))).toThrow(/export the recording as CSV/);
    }
    for (let k = 0; k < 300; k++) {
      const changed = bytes.slice();
      changed[(k * 7919) % bytes.length]! ^= 1 << (k % 8);
      try {
        const { statement } = read(changed);
        expect(Number.isFinite(statement.total.energy_J)).toBe(true);
      } catch (error) {
        expect((error as Error).name).toBe('BadInput');
      }
    }
  });
});
