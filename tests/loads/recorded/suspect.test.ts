/**
 * Recordings with a fault say so first, and the verdict of a run that plays them has a condition: wide and long,
 * in kilowatts, as current times voltage, as JSON lines and as Parquet.
 */
import { parquetWriteBuffer } from 'hyparquet-writer';
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { plainReading, RecordedReader, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { statementText } from '../../../src/loads/recorded/statement-text.ts';
import type { RecordedReading } from '../../../src/scenario/scenario.ts';
import { bytesAtHand, parquetPieces } from '../../../src/tables/rows/parquet-text.ts';
import { busy, changed } from '../../samples/signs/known-signal.ts';

const device = busy();
const other = busy(3000, 2);
const frozen = changed(device, 1000, 1500, () => device[1000]!);

const csv = (head: string, of: (k: number) => readonly (string | number)[]): string =>
  `${head}\n${Array.from(device, (_, k) => of(k).join(',')).join('\n')}\n`;
const read = (text: string, reading: Partial<RecordedReading> = {}) =>
  readRecorded(text, { file: 'load.csv', sha256: 'sum' }, { ...plainReading, ...reading });
const kindsIn = (text: string, reading: Partial<RecordedReading> = {}): string[] =>
  read(text, reading).statement.signs.map(({ kind, channel }) => `${kind} ${channel}`);

describe('a sensor that froze shows', () => {
  test('in a wide file of three channels, first of all that is printed', () => {
    const { statement } = read(
      csv('time_s,gpu0_W,gpu1_W,gpu2_W', (k) => [k / 50, device[k]!, frozen[k]!, other[k]!]),
    );
    const [line] = statementText(statement).split('\n');
    expect(line).toMatch(/^Suspect: gpu1_W stands at exactly \S+ W for 9\.98 s \(500 samples from 20 s on\)/);
  });

  test.each([
    ['in kilowatts', csv('time_s,power_kW', (k) => [k / 50, frozen[k]! / 1000]), 'frozen power_kW'],
    [
      'in a long file of blocks',
      csv('t_ms,accelerator,power_mW', (k) => [20 * k, 'a', 1000 * frozen[k]!]).concat(
        Array.from(other, (v, k) => `${20 * k},b,${1000 * v}`).join('\n'),
        '\n',
      ),
      'frozen a',
    ],
    [
      'as current times voltage, both of which stand still',
      csv('time_s,current_A,voltage_V', (k) => [k / 50, frozen[k]! / 50, 50]),
      'frozen current_A',
    ],
    [
      'as JSON lines, stamps with a zone',
      Array.from(frozen, (v, k) =>
        JSON.stringify({
          time: `2030-03-04T01:${String(Math.floor(k / 50)).padStart(2, '0')}:00.${String(20 * (k % 50)).padStart(3, '0')}+02:00`,
          power_W: v,
        }),
      ).join('\n'),
      'frozen power_W',
    ],
  ])('%s', (_, text, kind) => {
    expect(kindsIn(text)).toContain(kind);
  });

  test('as Parquet', () => {
    const bytes = new Uint8Array(
      parquetWriteBuffer({
        columnData: [
          { name: 'time_s', data: Array.from(frozen, (_, k) => k / 50), type: 'DOUBLE' },
          { name: 'power_W', data: [...frozen], type: 'DOUBLE' },
        ],
      }),
    );
    const reader = new RecordedReader('load.parquet', plainReading);
    parquetPieces(bytesAtHand(bytes), 'load.parquet', (text) => reader.push(text));
    expect(reader.finish('sum').statement.signs.map(({ kind }) => kind)).toEqual(['frozen']);
  });

  test('among rows that --where takes, and not in those that it leaves out', () => {
    const text = csv('time_s,kind,power_W', (k) => [k / 50, 'x', frozen[k]!]).concat(
      Array.from(device, (v, k) => `${k / 50},y,${v}`).join('\n'),
      '\n',
    );
    expect(kindsIn(text, { where: ['kind=x'] })).toEqual(['frozen power_W']);
    expect(kindsIn(text, { where: ['kind=y'] })).toEqual([]);
  });
});

test('other faults show in a file as they do in a channel', () => {
  const wide = (a: Float64Array, b: Float64Array): string =>
    csv('time_s,gpu0_W,gpu1_W', (k) => [k / 50, a[k]!, b[k]!]);
  const gone = (values: Float64Array): Float64Array => changed(values, 1000, 1500, () => 0);
  expect(kindsIn(wide(device, other))).toEqual([]);
  expect(kindsIn(wide(gone(device), gone(other)))).toEqual(['zeros gpu0_W', 'zeros gpu1_W']);
  expect(
    kindsIn(
      wide(
        device.map((v) => Math.min(v, 600)),
        other,
      ),
    ),
  ).toEqual(['clipped gpu0_W']);
  expect(
    kindsIn(
      wide(
        changed(device, 99, 100, () => 65535),
        other,
      ),
    ),
  ).toEqual(['spike gpu0_W']);
  expect(
    kindsIn(
      wide(
        device,
        other.map((v) => v / 1000),
      ),
    ),
  ).toEqual(['another scale gpu1_W']);
  expect(
    kindsIn(
      wide(
        changed(device, 1500, 3000, (v) => v / 1000),
        other,
      ),
    ),
  ).toEqual(['two scales gpu0_W']);
  expect(kindsIn(wide(device, device))).toEqual(['twin gpu1_W']);
  const twice = (values: Float64Array) => changed(values, 2000, 2500, (_, k) => values[k - 1000]!);
  expect(kindsIn(wide(twice(device), twice(other)))).toEqual(['repeated gpu0_W', 'repeated gpu1_W']);
});

test('what no file can show is said of every recording', () => {
  expect(statementText(read(csv('time_s,power_W', (k) => [k / 50, device[k]!])).statement)).toMatch(
    /^Cannot be seen in a file: rows taken out where stamps were renumbered/m,
  );
});

/** A current and a voltage that both move, as a cabinet's meters write them. */
function product(current: (i_A: number, k: number) => number, voltage: (v_V: number, k: number) => number) {
  const random = new Random(5);
  const rows = Array.from({ length: 3000 }, (_, k) => {
    const i_A = (k % 150 < 110 ? 14 + 1.5 * Math.sin(k / 7) : 3) + 0.3 * random.gaussian();
    const v_V = 50 - 0.5 * i_A + 0.05 * random.gaussian();
    return `${(0.01 * k).toFixed(2)},${current(i_A, k).toFixed(3)},${voltage(v_V, k).toFixed(3)}`;
  });
  return ['time_s,current_A,voltage_V', ...rows].join('\n');
}

test('a fault of a current or of a voltage shows, though their product moves on', () => {
  const same = (value: number): number => value;
  const frozen = (value: number, k: number): number => (k < 1000 || k > 2000 ? value : 44.5);
  expect(kindsIn(product(same, same))).toEqual([]);
  expect(kindsIn(product((i_A) => Math.min(i_A, 13.5), same))).toContain('clipped current_A');
  expect(kindsIn(product(same, frozen))).toEqual(['frozen voltage_V']);
});

describe('a recording that shows no sensor alive says so', () => {
  const rows = (head: string, of: (k: number) => string): string =>
    `${head}\n${Array.from({ length: 1500 }, (_, k) => `${(k / 50).toFixed(2)},${of(k)}`).join('\n')}\n`;

  test.each([
    ['one value throughout', () => '230000'],
    ['one value from the first half second on', (k: number) => (k < 20 ? '100000' : '230000')],
    ['two values in turns', (k: number) => `${230_000 + (k % 2)}`],
  ])('%s', (_, of) => {
    expect(kindsIn(rows('time_s,power_W', of))).toEqual(['frozen power_W']);
  });

  test('a current beside a voltage that moves, and not a voltage that is held beside a current that does', () => {
    const random = new Random(6);
    const volts = (): string => (50 + 0.02 * random.gaussian()).toFixed(3);
    const amperes = (): string => (4000 + 30 * random.gaussian()).toFixed(1);
    expect(kindsIn(rows('time_s,current_A,voltage_V', () => `4600,${volts()}`))).toEqual([
      'frozen current_A',
    ]);
    expect(kindsIn(rows('time_s,current_A,voltage_V', () => `${amperes()},50.0`))).toEqual([]);
  });

  test('once, where others beside it move', () => {
    const text = csv('time_s,gpu0_W,gpu1_W', (k) => [k / 50, device[k]!, 300]);
    expect(kindsIn(text)).toEqual(['never changes gpu1_W']);
  });
});

test('rows that a logger wrote out at once show, once for all channels', () => {
  let time_s = 0;
  const text = csv('time_s,gpu0_W,gpu1_W', (k) => {
    time_s += k > 500 && k <= 700 ? 0.0004 : 0.02;
    return [time_s.toFixed(5), device[k]!, other[k]!];
  });
  expect(kindsIn(text)).toEqual(['hurried gpu0_W']);
});
