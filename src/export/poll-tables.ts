/** What polls of the management network would have read, as a table: one row a reading. */
import type { Report } from '../analysis/judge/report.ts';
import { columnsFor, listTable } from './study/list-table.ts';
import type { ExportTable } from './table.ts';

/** Of the channels that are `wanted`, in time order; none where the scenario declares no port. */
export function pollTables(
  { monitoring }: Pick<Report, 'monitoring'>,
  wanted: ReadonlySet<string>,
): readonly ExportTable[] {
  const rows = (monitoring?.ports ?? [])
    .flatMap(({ port, channels }) =>
      channels
        .filter(({ channel }) => wanted.has(channel))
        .flatMap(({ channel, device, time_s, readings }) =>
          time_s.map((at_s, k) => ({ at_s, port, device, channel, reading: readings[k]! })),
        ),
    )
    .sort((a, b) => a.at_s - b.at_s);
  if (rows.length === 0) return [];
  const column = columnsFor(rows);
  return [
    listTable('polls', [
      column.number('time_s', ({ at_s }) => at_s),
      column.text('port', ({ port }) => port),
      column.text('device', ({ device }) => device),
      column.text('channel', ({ channel }) => channel),
      column.number('reading', ({ reading }) => reading),
    ]),
  ];
}
