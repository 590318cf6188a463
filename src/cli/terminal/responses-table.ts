/** How each unit answered the run's edges and events. */
import type { Report } from '../../analysis/judge/report.ts';
import {
  noResponses,
  responseHead,
  responseRows,
  responsesHeading,
} from '../../analysis/words/response-words.ts';
import { alignColumns, wrap } from './columns.ts';

export function responsesTable({ responses }: Pick<Report, 'responses'>, width: number): string {
  const heading = responses === undefined ? null : responsesHeading(responses);
  if (responses === undefined || heading === null) return noResponses;
  const rows = alignColumns([[...responseHead], ...responseRows(responses)], new Set([1, 2, 3, 4]));
  return [...wrap(heading, width), ...rows.map((cells) => cells.join('  ').trimEnd())].join('\n');
}
