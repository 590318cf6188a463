import type { SpreadReport } from '../../studies/spread/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** One row a sample: how it came out, and the values that were drawn for it. */
export function spreadTables({ samples, drawn, of }: SpreadReport): readonly ExportTable[] {
  const { number, text, list, setting } = columnsFor(samples.map((sample, k) => ({ ...sample, k })));
  return [
    listTable('samples', [
      number('sample', ({ k }) => k + 1),
      text('verdict', ({ verdict }) => verdict),
      text('status', ({ status }) => status),
      number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
      text('binding', ({ binding }) => binding),
      ...(of === 'headroom' ? [] : [number(of, ({ value }) => value)]),
      list('conditions', ({ conditions }) => conditions),
      list('warnings', ({ warnings }) => warnings),
      ...drawn.map(({ path, values }) => setting(path, ({ k }) => values[k]!)),
    ]),
  ];
}
