import type { RatingReport } from '../../studies/rating/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** How far each situation goes; and the curve of pulsed against steady, where there is one. */
export function ratingTables({ table, curve }: RatingReport): readonly ExportTable[] {
  const row = columnsFor(table);
  const point = columnsFor(curve);
  return [
    listTable('situations', [
      row.text('situation', ({ situation }) => situation),
      row.number('scale_ratio', ({ scale_ratio }) => scale_ratio),
      row.text('binding', ({ binding }) => binding),
      row.number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
      row.list('conditions', ({ conditions }) => conditions),
      row.list('warnings', ({ warnings }) => warnings),
    ]),
    listTable('curve', [
      point.setting('period', ({ period }) => period),
      point.setting('duty', ({ duty }) => duty),
      point.number('high_W', ({ high_W }) => high_W),
      point.number('pulsed_over_steady_ratio', ({ pulsed_over_steady_ratio }) => pulsed_over_steady_ratio),
      point.text('binding', ({ binding }) => binding),
      point.list('conditions', ({ conditions }) => conditions),
    ]),
  ];
}
