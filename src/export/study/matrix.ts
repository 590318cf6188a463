import type { MatrixReport } from '../../studies/matrix/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** One row a cell; `value` and `limit` are those of the limit that decides, in the SI unit beside them. */
export function matrixTables({ cells }: MatrixReport): readonly ExportTable[] {
  const { text, number, list } = columnsFor(cells);
  return [
    listTable('cells', [
      text('fault', ({ fault }) => fault),
      text('redundancy', ({ redundancy }) => redundancy),
      text('corner', ({ corner }) => corner),
      text('verdict', ({ verdict }) => verdict),
      text('status', ({ status }) => status),
      text('binding', ({ binding }) => binding),
      number('value', ({ value }) => value),
      number('limit', ({ limit }) => limit),
      text('unit', ({ unit }) => unit),
      number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
      text('node', ({ node }) => node),
      list('conditions', ({ conditions }) => conditions),
      list('warnings', ({ warnings }) => warnings),
      text('collapse', ({ collapse }) => collapse),
      number('later_s', ({ later_s }) => later_s),
      text('unfelt', ({ unfelt }) => unfelt),
    ]),
  ];
}
