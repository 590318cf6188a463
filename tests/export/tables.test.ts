/** Tables written and read back by other programs' readers, bit for bit. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, describe, expect, it } from 'vitest';
import { textCell } from '../../src/base/csv-cell.ts';
import { openTable } from '../../src/export/open-table.ts';
import { WaveformSaver } from '../../src/export/save-waveforms.ts';
import { numberColumn, rowsPerBlock, type TableForm } from '../../src/export/table.ts';
import { parquetColumns, rowGroups } from './read-parquet.ts';

const folder = mkdtempSync(join(tmpdir(), 'tables-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Numbers that a writer may lose a bit of. */
const awkward = [
  0,
  -0,
  1,
  -1,
  0.1,
  1 / 3,
  5e-324,
  2.2250738585072014e-308,
  1.7976931348623157e308,
  -49.99999999999999,
  9007199254740991,
  1e21,
  1e-7,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
];

function bits(values: Iterable<number>): string {
  return Buffer.from(Float64Array.from(values).buffer).toString('hex');
}

function written(form: TableForm): string {
  const path = join(folder, `awkward.${form}`);
  const writer = openTable(path, form, [
    numberColumn('x_V'),
    { name: '=SUM(A1:A9)', holds: 'text', sparse: true },
    { name: 'gap_s', holds: 'number', sparse: true },
  ]);
  for (let block = 0; block < 3; block++)
    writer.write([
      Float64Array.from(awkward),
      awkward.map((_, j) => (j % 3 === 0 ? null : `@"${j}", ü`)),
      awkward.map((x, j) => (j % 2 === 0 ? x : null)),
    ]);
  writer.close();
  return path;
}

const thrice = [...awkward, ...awkward, ...awkward];

describe('a table', () => {
  it('as Parquet reads back with another reader bit for bit, a row group a block', async () => {
    const path = written('parquet');
    expect(await rowGroups(path)).toBe(3);
    const columns = await parquetColumns(path);
    expect([...columns.keys()]).toEqual(['x_V', '=SUM(A1:A9)', 'gap_s']);
    expect(bits(columns.get('x_V') as number[])).toBe(bits(thrice));
    expect(columns.get('=SUM(A1:A9)')![1]).toBe('@"1", ü');
    expect(columns.get('=SUM(A1:A9)')![0]).toBeNull();
    expect(columns.get('gap_s')![1]).toBeNull();
    expect(columns.get('gap_s')![4]).toBe(0.1);
  });

  it('as CSV reads back with another reader bit for bit, and begins no formula', () => {
    const text = readFileSync(written('csv'), 'utf8');
    const [head, ...rows] = Papa.parse<string[]>(text, { skipEmptyLines: true }).data;
    expect(head).toEqual(['x_V', "'=SUM(A1:A9)", 'gap_s']);
    expect(bits(rows.map(([x]) => Number(x)))).toBe(bits(thrice));
    expect(rows[1]!.slice(1)).toEqual([`'@"1", ü`, '']);
    expect(rows[0]!.slice(1)).toEqual(['', '0']);
  });

  it.each(['=1+1', '+1', '-1', '@A1', '\t=1', ' =1', '\r\n+1', '=cmd|"/c calc"!A0'])('guards %j', (name) => {
    const [[cell]] = Papa.parse<string[]>(textCell(name), { delimiter: ',' }).data as [[string]];
    expect(cell).toBe(`'${name}`);
  });

  it.each(['S1.current_A', 'a-b', '1+1', ''])('leaves %j as it is', (name) => {
    expect(textCell(name)).toBe(name);
  });
});

describe('waveforms on their way to files', () => {
  it('take no more memory for more rows', () => {
    const channels = 24;
    const series = Array.from({ length: channels }, (_, k) => ({ id: `c${k}_V`, of: [], usual: true }));
    const saver = new WaveformSaver({
      series,
      pace: { kind: 'every-step' },
      files: (['csv', 'parquet'] as const).map((form) => {
        const path = join(folder, `long.${form}`);
        return { form, path, target: path };
      }),
    });
    const row = new Float64Array(channels);
    const grown: number[] = [];
    const rows = 3 * rowsPerBlock(channels + 1);
    for (let j = 0; j < rows; j++) {
      row.fill(j / 7);
      saver.order.take(j, row);
      if ((j + 1) % rowsPerBlock(channels + 1) > 0) continue;
      globalThis.gc!();
      const { heapUsed, arrayBuffers } = process.memoryUsage();
      grown.push(heapUsed + arrayBuffers);
    }
    saver.close();
    expect(saver.rows).toBe(rows);
    // Two further blocks of 8 MB have been written since the first: nothing of them stays.
    expect(grown.at(-1)! - grown[0]!).toBeLessThan(4e6);
  });
});
