import type { GainsReport } from '../../studies/gains/report.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

const quantities = [
  'damping_ratio',
  'damping_Hz',
  'damping_fast_ratio',
  'damping_fast_Hz',
  'clearance_ratio',
  'settling_s',
  'overshoot_ratio',
  'steady_error_ratio',
  'growth_per_s',
  'growth_Hz',
] as const;

/** The map, one row a point. */
export function gainsTables({ axes: [a, b], cells }: GainsReport): readonly ExportTable[] {
  const { setting, number, truth, text } = columnsFor(cells);
  return [
    listTable('cells', [
      setting(a.path, ({ x }) => a.values[x]!),
      setting(b.path, ({ y }) => b.values[y]!),
      truth('stable', ({ stable }) => stable),
      ...quantities.map((name) => number(name, (cell) => cell[name])),
      text('lacks', ({ lacks }) => lacks),
      text('fails_in', ({ fails_in }) => fails_in),
      text('reason', ({ reason }) => reason),
    ]),
  ];
}
