/** What a verdict is conditioned by, as a short list that stands open: nothing of it is behind a fold. */
import type { Report } from '../../src/analysis/judge/report.ts';
import { counted } from '../../src/base/counted.ts';
import { html } from '../dom.ts';

/** Limits named of a kind; conditions named before the rest is counted. */
const limitsNamed = 3;
const conditionsNamed = 4;

/** null where nothing conditions it. */
export function conditionList(report: Report): HTMLElement | null {
  const items = [...moreFails(report), ...ofBasis(report), ...ofLimits(report)];
  return items.length === 0 ? null : html('ul', { class: 'conditions' }, ...items);
}

function moreFails({ findings, collapse }: Report): HTMLElement[] {
  const fails = findings.filter(({ verdict }) => verdict === 'fail').slice(collapse === null ? 1 : 0);
  return fails.length === 0
    ? []
    : [item(collapse === null ? 'also exceeded' : 'exceeded', named(fails.map(({ title }) => title)))];
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

function ofLimits({ findings }: Report): HTMLElement[] {
  const kinds = [
    ['within the doubt', findings.filter(({ within_doubt }) => within_doubt)],
    ['inconclusive', findings.filter(({ verdict }) => verdict === 'inconclusive')],
  ] as const;
  return kinds.flatMap(([word, those]) =>
    those.length === 0 ? [] : [item(word, named(those.map(({ title }) => title)))],
  );
}

function item(word: string, what: string, more = ''): HTMLElement {
  return html('li', {}, html('strong', {}, word), ` ${what}`, more === '' ? null : html('small', {}, more));
}

function named(titles: readonly string[]): string {
  const more = titles.length - limitsNamed;
  const first = titles.slice(0, limitsNamed).join('; ');
  return more > 0 ? `${first}; and ${more} more` : first;
}
