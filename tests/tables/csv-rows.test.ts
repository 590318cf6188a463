import { describe, expect, test } from 'vitest';
import { CsvRows } from '../../src/tables/rows/csv-rows.ts';

/** Rows with their lines, the text handed over in pieces of `piece` characters. */
function rowsOf(text: string, piece = text.length): readonly (readonly [number, ...string[]])[] {
  const rows: (readonly [number, ...string[]])[] = [];
  const reader = new CsvRows((row, line) => rows.push([line, ...row]));
  for (let i = 0; i < text.length; i += piece) reader.push(text.slice(i, i + piece));
  reader.finish();
  return rows;
}

describe('rows of delimited text', () => {
  test('carry their line, past comments, blank lines and cells with a line break', () => {
    const text = '# of a bench\na,b\n\n1,"two\nlines"\n3,4\r\n% a marker\n5,6';
    const rows = [
      [2, 'a', 'b'],
      [4, '1', 'two\nlines'],
      [6, '3', '4'],
      [8, '5', '6'],
    ];
    for (const piece of [1, 2, 7, 1000]) expect(rowsOf(text, piece)).toEqual(rows);
  });

  test('are the same whether a text has one batch of lines or many', () => {
    const text = Array.from({ length: 2500 }, (_, i) => (i % 7 === 3 ? `"${i}";"x;y"` : `${i};z`)).join('\n');
    const rows = rowsOf(text, 4096);
    expect(rows).toHaveLength(2500);
    expect(rows[2396]).toEqual([2397, '2396', 'z']);
    expect(rows[2243]).toEqual([2244, '2243', 'x;y']);
  });

  test('of which one opens a quote that nobody closes lose that row alone', () => {
    const lines = Array.from({ length: 20_000 }, (_, i) => (i === 1500 ? '1500,"oops' : `${i},fine`));
    const rows = rowsOf(lines.join('\n'), 1 << 16);
    expect(rows).toHaveLength(20_000);
    expect(rows.filter(([, , word]) => word !== 'fine')).toEqual([[1501, '1500', 'oops']]);
  });

  test('parted by runs of blanks keep the blanks inside quotes', () => {
    expect(rowsOf('  t_s   "power drawn"\n 0.0 \t 5\n 1.0     6')).toEqual([
      [1, 't_s', 'power drawn'],
      [2, '0.0', '5'],
      [3, '1.0', '6'],
    ]);
  });

  test('with a blank before an opening quote have no quotes left', () => {
    expect(rowsOf('"t", "power, all", "said ""so"", twice"\n1, "2", 3')).toEqual([
      [1, 't', 'power, all', 'said "so", twice'],
      [2, '1', '2', ' 3'],
    ]);
  });
});
