/** What a reviewer added: conditions, and waivers with who and until when. */
import type { Report } from '../analysis/report.ts';
import { waiverWords } from '../analysis/waive.ts';
import { wrap } from './columns.ts';
import type { Paint } from './paint.ts';

export function signOffText(
  { waivers, conditions, findings }: Pick<Report, 'waivers' | 'conditions' | 'findings'>,
  width: number,
  paint: Paint,
): string[] {
  const used = (limit: string): boolean => findings.some((f) => f.id === limit && f.verdict === 'waived');
  const idle = waivers.filter(({ limit }) => !used(limit));
  const rows = [
    ...conditions.map((condition) => `on condition: ${condition}`),
    ...idle.map((waiver) => `idle waiver of ${waiver.limit}, ${waiverWords(waiver)}`),
  ];
  return rows
    .flatMap((row) => wrap(`sign    ${row}`, width, ' '.repeat(10)))
    .map((line) => paint('open', line));
}
