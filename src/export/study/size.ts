import type { SizeReport } from '../../studies/size/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** What each limit asks for; and the candidates, one row each. */
export function sizeTables({ table, candidates }: SizeReport): readonly ExportTable[] {
  const limit = columnsFor(table);
  const candidate = columnsFor(candidates);
  const paths = Object.keys(candidates[0]?.values ?? {});
  return [
    listTable('limits', [
      limit.text('limit', (row) => row.limit),
      limit.setting('smallest', ({ smallest }) => smallest),
      limit.truth('or_less', ({ or_less }) => or_less),
      limit.text('situation', ({ situation }) => situation),
      limit.number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
      limit.truth('decides', ({ decides }) => decides),
    ]),
    listTable('candidates', [
      ...paths.map((path) => candidate.setting(path, ({ values }) => values[path] ?? null)),
      candidate.truth('passes', ({ passes }) => passes),
      candidate.number('tightest_ratio', ({ tightest_ratio }) => tightest_ratio),
      candidate.text('binding', ({ binding }) => binding),
      candidate.text('situation', ({ situation }) => situation),
      candidate.list('conditions', ({ conditions }) => conditions),
      candidate.list('warnings', ({ warnings }) => warnings),
    ]),
  ];
}
