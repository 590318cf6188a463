/** What a verdict is conditioned by, as a short list that stands open under its name: nothing of it is behind a fold. */
import { limitsNamed, openLimits } from '../../src/analysis/judge/open-limits.ts';
import type { Finding, Report } from '../../src/analysis/judge/report.ts';
import { namedFew } from '../../src/analysis/words/named-few.ts';
import { counted } from '../../src/base/counted.ts';
import { html } from '../dom.ts';

/** Conditions of the basis shown before the rest is counted. */
const conditionsNamed = 4;

/** null where nothing conditions it. Beside a fail the same things are no conditions, and what else fails comes first. */
export function conditionList(report: Report): HTMLElement | null {
  const items = [...moreFails(report), ...ofBasis(report), ...ofLimits(report)];
  if (items.length === 0) return null;
  const name = report.verdict === 'pass_with_conditions' ? 'conditions' : 'also';
  return html(
    'div',
    { class: 'conditions' },
    html('span', { class: 'term' }, name),
    html('ul', {}, ...items),
  );
}

function moreFails({ findings, collapse }: Report): HTMLElement[] {
  const fails = findings.filter(({ verdict }) => verdict === 'fail').slice(collapse === null ? 1 : 0);
  return fails.length === 0 ? [] : [item('exceeded', named(fails))];
}

function ofBasis({ basis }: Report): HTMLElement[] {
  const conditions = basis.filter((one) => one.conditions);
  const shown = conditions
    .slice(0, conditionsNamed)
    .map(({ kind, what, by }) => item(kind, what, by === null ? '' : ` (${by})`));
  const more = conditions.length - shown.length;
  return more > 0
    ? [...shown, item('and', `${counted(more, 'more condition', 'more conditions')} in the basis`)]
    : shown;
}

/** What is waived stands in the basis, with who waives it. */
function ofLimits({ findings }: Report): HTMLElement[] {
  return openLimits(findings)
    .filter(({ word }) => word !== 'waived')
    .map(({ word, limits }) => item(word, named(limits)));
}

function item(word: string, what: string, more = ''): HTMLElement {
  return html('li', {}, html('strong', {}, word), ` ${what}`, more === '' ? null : html('small', {}, more));
}

function named(limits: readonly Finding[]): string {
  return namedFew(
    limits.map(({ title, column }) => (column === 'carry' ? `${title} (carrying)` : title)),
    limitsNamed,
    '; ',
  );
}
