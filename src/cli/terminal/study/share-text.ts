import { shareHead, shareHeading, shareRows } from '../../../studies/share/paper.ts';
import type { ShareReport } from '../../../studies/share/report.ts';
import type { Paint } from '../paint.ts';
import { tableText } from './table-text.ts';

/** One row for each case of the share loop. */
export function shareText(report: ShareReport, paint: Paint): string {
  const numbers = new Set([1, 2, 3, 4, 5]);
  return [shareHeading(report), ...tableText(shareHead, shareRows(report), paint, numbers)].join('\n');
}
