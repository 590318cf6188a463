/** Every limit that was looked at: in full what fails, is waived or is inconclusive, in a line each what passes. */
import type { Finding } from '../../src/analysis/judge/report.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { marks } from '../findings/marks.ts';
import { headroomOf, readingOf } from '../findings/numbers.ts';
import { instant, withUnit } from '../numbers.ts';
import { type Ranked, ranked } from '../ranked.ts';

export function limitsPart({ report }: Bundle): HTMLElement {
  const all = ranked(report.findings);
  const passes = all.filter(({ finding }) => finding.verdict === 'pass');
  const idle = all.filter(({ finding }) => finding.verdict === 'not_applicable').length;
  const open = all.filter(({ finding: { verdict } }) => verdict !== 'pass' && verdict !== 'not_applicable');
  return html(
    'section',
    {},
    html('h2', {}, 'Limits that fail, are waived or are inconclusive'),
    open.length === 0 ? html('p', {}, 'None.') : table(open, true),
    html('h2', {}, 'Limits that pass'),
    passes.length === 0 ? html('p', {}, 'None.') : table(passes, false),
    idle === 0 ? null : html('p', { class: 'note' }, `${idle} more do not apply to this run.`),
  );
}

const heads = ['', 'limit', 'value / limit', 'headroom', 'where', 'when'] as const;

function table(those: readonly Ranked[], full: boolean): HTMLElement {
  return html(
    'table',
    { class: 'limits' },
    html('thead', {}, html('tr', {}, ...heads.map((head) => html('th', { scope: 'col' }, head)))),
    ...those.map(({ number, finding }) => entry(number, finding, full)),
  );
}

/** In a body of its own, so that no page ends between a limit and what is said of it. */
function entry(number: number, finding: Finding, full: boolean): HTMLElement {
  const { title, verdict, node, time_s, column } = finding;
  const [glyph, word] = marks[verdict];
  const name = column === 'normal' ? title : `${title} (${column} column)`;
  const cells = [readingOf(finding), headroomOf(finding), node ?? '', time_s === null ? '' : instant(time_s)];
  const said = full ? saidOf(finding) : '';
  return html(
    'tbody',
    {},
    html(
      'tr',
      {},
      html('td', {}, String(number)),
      html('th', { scope: 'row' }, `${glyph} ${full ? `${word}: ` : ''}${name}`),
      ...cells.map((cell) => html('td', {}, cell)),
    ),
    said === '' ? null : html('tr', {}, html('td', {}), html('td', { colspan: 5, class: 'note' }, said)),
  );
}

function saidOf({ reason, waived_from, worst_outside, within_doubt, unit, chain, source }: Finding): string {
  const outside =
    worst_outside === null
      ? null
      : `Worst outside: ${withUnit(worst_outside.value, unit)} (${worst_outside.reason}).`;
  const sentences = [
    reason === null ? null : `${reason}.`,
    waived_from === null ? null : `Waived; it came out as ${waived_from}.`,
    within_doubt ? 'Its headroom is within the doubt.' : null,
    outside,
    ...chain,
    `Source of the limit: ${source}.`,
  ];
  return sentences
    .filter((words) => words !== null)
    .join(' ')
    .replaceAll('..', '.');
}
