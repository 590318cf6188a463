/** What the verdict rests on beside its conditions: its rule and day in a line, all entries when it is opened. */
import type { BasisEntry } from '../../src/analysis/basis.ts';
import type { Report } from '../../src/analysis/judge/report.ts';
import { counted } from '../../src/base/counted.ts';
import { html } from '../dom.ts';

export function basisList(report: Report): HTMLElement {
  const { basis, judged_on } = report;
  const rule = basis.find(({ kind }) => kind === 'rule');
  const words = [
    ...(rule === undefined ? [] : [rule.what]),
    judged_on === null ? 'day of judgement not stated' : `judged on ${judged_on}`,
    counted(basis.length, 'entry', 'entries'),
  ];
  return html(
    'details',
    { class: 'basis' },
    html('summary', {}, html('strong', {}, 'Basis'), ` ${words.join(' · ')}`),
    basisEntries(report),
  );
}

/** Every entry, those that condition the verdict first. */
export function basisEntries({ basis }: Report): HTMLElement {
  const conditions = basis.filter((one) => one.conditions);
  const rest = basis.filter((one) => !one.conditions);
  return html('ul', {}, ...[...conditions, ...rest].map(entry));
}

function entry({ kind, what, by, reason, since, conditions }: BasisEntry): HTMLElement {
  return html(
    'li',
    { class: conditions ? 'condition' : 'told' },
    conditions ? html('strong', {}, `Condition, ${kind}: `) : `${kind}: `,
    what,
    by === null ? null : html('small', {}, ` (${by}${since === null ? '' : `, since ${since}`})`),
    reason === null ? null : html('small', {}, ` ${reason}`),
  );
}
