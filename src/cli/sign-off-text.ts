/** What a reviewer added: conditions, and waivers with who and until when. */
import type { Report } from '../analysis/report.ts';
import { ranOut, waiverWords } from '../analysis/waive.ts';
import { wrap } from './columns.ts';
import type { Paint } from './paint.ts';

export function signOffText(
  {
    waivers,
    conditions,
    findings,
    judged_on,
  }: Pick<Report, 'waivers' | 'conditions' | 'findings' | 'judged_on'>,
  width: number,
  paint: Paint,
): string[] {
  const used = (limit: string): boolean => findings.some((f) => f.id === limit && f.verdict === 'waived');
  const expired = waivers.filter((waiver) => ranOut(waiver, judged_on));
  const idle = waivers.filter((waiver) => !expired.includes(waiver) && !used(waiver.limit));
  const rows = [
    ...conditions.map((condition) => `on condition: ${condition}`),
    ...expired.map(
      (waiver) =>
        `expired waiver of ${waiver.limit}, ${waiverWords(waiver)}: on ${judged_on} the limit judges again`,
    ),
    ...idle.map((waiver) => `idle waiver of ${waiver.limit}, ${waiverWords(waiver)}`),
  ];
  return rows
    .flatMap((row) => wrap(`sign    ${row}`, width, ' '.repeat(10)))
    .map((line) => paint('open', line));
}
