import { type Figure, figureParameters } from '../../scenario/parameters/figures.ts';
import { objectiveFields } from '../../studies/designs/objectives.ts';
import type { DesignsReport } from '../../studies/designs/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** Every design; and the bills of parts of those on the front, one part a row. */
export function designsTables({ designs, front, varied, objectives }: DesignsReport): readonly ExportTable[] {
  const design = columnsFor(designs);
  const parts = front.flatMap(({ values, bill }) => bill.lines.map((line) => ({ values, line })));
  const part = columnsFor(parts);
  return [
    listTable('designs', [
      ...varied.map((path) => design.setting(path, ({ values }) => values[path] ?? null)),
      ...objectives.map((objective) =>
        design.number(objectiveFields[objective], (row) => row.objectives[objective] ?? null),
      ),
      design.text('standing', ({ standing }) => standing),
      design.number('tightest_ratio', ({ run }) => run?.tightest_ratio ?? null),
      design.text('binding', ({ run }) => run?.binding ?? null),
      design.text('situation', ({ run }) => run?.situation ?? null),
      design.list('conditions', ({ run }) => run?.conditions ?? []),
      design.list('warnings', ({ run }) => run?.warnings ?? []),
    ]),
    listTable('parts', [
      ...varied.map((path) => part.setting(path, ({ values }) => values[path] ?? null)),
      part.text('kind', ({ line }) => line.family),
      part.text('model', ({ line }) => line.model),
      part.list('differs', ({ line }) => line.differs),
      part.number('units', ({ line }) => line.units.length),
      ...(Object.keys(figureParameters) as Figure[]).flatMap((figure) => [
        part.number(`${objectiveFields[figure]}_each`, ({ line }) => line.figures[figure]?.value ?? null),
        part.text(`${figure}_source`, ({ line }) => line.figures[figure]?.source ?? null),
      ]),
    ]),
  ];
}
