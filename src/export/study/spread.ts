import type { RareReport } from '../../studies/spread/rare/search.ts';
import type { SpreadReport } from '../../studies/spread/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

/** Samples, and where what fails lies, where that was searched. */
export function spreadTables(report: SpreadReport): readonly ExportTable[] {
  return [samplesTable(report), ...(report.rare === undefined ? [] : [regionsTable(report.rare)])];
}

/** One row a sample: how it came out, and the values that were drawn for it. */
function samplesTable({ samples, drawn, of }: SpreadReport): ExportTable {
  const { number, text, list, setting } = columnsFor(samples.map((sample, k) => ({ ...sample, k })));
  return listTable('samples', [
    number('sample', ({ k }) => k + 1),
    text('verdict', ({ verdict }) => verdict),
    text('status', ({ status }) => status),
    number('headroom_ratio', ({ headroom_ratio }) => headroom_ratio),
    text('binding', ({ binding }) => binding),
    ...(of === 'headroom' ? [] : [number(of, ({ value }) => value)]),
    list('conditions', ({ conditions }) => conditions),
    list('warnings', ({ warnings }) => warnings),
    ...drawn.map(({ path, values }) => setting(path, ({ k }) => values[k]!)),
  ]);
}

/** One row a region: its middle in standard deviations of each drawn value, and as the values that this makes. */
function regionsTable({ probability_ratio, regions }: RareReport): ExportTable {
  const { number, text, setting } = columnsFor(regions.map((region, k) => ({ ...region, k })));
  const paths = regions[0]?.middle.map(({ path }) => path) ?? [];
  return listTable('regions', [
    number('region', ({ k }) => k + 1),
    number('share_ratio', ({ share_ratio }) => share_ratio),
    number('probability_ratio', ({ share_ratio }) =>
      probability_ratio === null ? null : probability_ratio * share_ratio,
    ),
    number('distance_deviations', ({ distance }) => distance),
    ...paths.flatMap((path, j) => [
      number(`${path}_deviations`, ({ middle }) => middle[j]!.deviations),
      setting(path, ({ middle }) => middle[j]!.value),
    ]),
    text('replay', ({ replay }) => replay),
  ]);
}
