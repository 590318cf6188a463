/** The worst margins as tables: what is worst and where, the points that show it, and every point that was asked. */
import type { OverFound } from '../../studies/response/over/found.ts';
import type { ExportTable } from '../table.ts';
import { columnsFor, listTable } from './list-table.ts';

export function overTables({ worst, points, asked }: OverFound): readonly ExportTable[] {
  const margin = columnsFor(worst);
  const point = columnsFor(points);
  const row = columnsFor(asked);
  return [
    listTable('worst', [
      margin.text('of', ({ of }) => of),
      margin.text('margin', ({ what }) => what),
      margin.number('nominal', ({ nominal }) => nominal),
      margin.number('worst', ({ value }) => value),
      margin.truth('unstable', ({ unstable }) => unstable),
      margin.text('point', (one) => one.point),
    ]),
    listTable('points', [
      point.text('point', ({ name }) => name),
      point.number('load_W', ({ load_W }) => load_W),
      point.list('state', ({ state }) => state),
      point.text('parts', ({ parts }) => parts),
      point.text('drawn', ({ drawn }) => drawn),
      point.list('changes', ({ changes }) => changes.map(({ path, value }) => `${path}=${value}`)),
      point.text('command', ({ command }) => command),
    ]),
    listTable('asked', [
      row.number('load_W', ({ load_W }) => load_W),
      row.text('state', ({ state }) => state),
      row.text('parts', ({ parts }) => parts),
      row.text('drawn', ({ drawn }) => drawn),
      row.text('no_settled_point', ({ reason }) => reason),
      row.number('growth_per_s', ({ growing }) => growing?.growth_per_s ?? null),
      ...worst.map(({ of, what }, k) =>
        row.number(`${of} ${what}`.replaceAll(' ', '_'), ({ values }) => values[k] ?? null),
      ),
    ]),
  ];
}
