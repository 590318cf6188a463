/** What the ports of a scenario would have seen, beside what happened. */
import type { Report } from '../../analysis/judge/report.ts';
import {
  beyondSentences,
  monitoringHead,
  monitoringRows,
  noMonitoring,
  portSentences,
} from '../../analysis/words/monitoring-words.ts';
import { alignColumns, wrap } from './columns.ts';

export function monitoringText({ monitoring }: Pick<Report, 'monitoring'>, width: number): string {
  if (monitoring === undefined) return noMonitoring;
  return monitoring.ports
    .map((port) => {
      const rows = alignColumns([[...monitoringHead], ...monitoringRows(port)], new Set([1, 2, 3, 4, 5, 6]));
      return [
        ...portSentences(port).flatMap((sentence) => wrap(sentence, width)),
        ...rows.map((cells) => cells.join('  ').trimEnd()),
        ...beyondSentences(port).flatMap((sentence) => wrap(sentence, width, '  ')),
      ].join('\n');
    })
    .join('\n\n');
}
