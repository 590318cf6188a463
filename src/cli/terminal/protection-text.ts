/** How near guarded currents come to their time–current curves. */
import type { Report } from '../../analysis/judge/report.ts';
import { noProtection, protectionLines } from '../../analysis/words/protection-words.ts';
import { wrap } from './columns.ts';

export function protectionText({ protection }: Pick<Report, 'protection'>, width: number): string {
  if (protection === undefined) return noProtection;
  return protectionLines(protection)
    .flatMap((line) => wrap(line, width, '  '))
    .join('\n');
}
