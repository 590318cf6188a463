/** Guarded currents against their time–current curves: a row a unit, the nearest to its curve first. */
import { noClearing, protectionHead, protectionRows } from '../../src/analysis/words/protection-words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { paper } from './paper.ts';

/** Nothing where the scenario gives no curve. */
export function protection({ report }: Bundle): HTMLElement[] {
  if (report.protection === undefined) return [];
  const [first = '', ...rest] = protectionHead;
  const head = html('tr', {}, ...[first, ...rest].map((cell) => html('th', { scope: 'col' }, cell)));
  const rows = protectionRows(report.protection).map(([name = '', ...cells]) =>
    html('tr', {}, html('th', { scope: 'row' }, name), ...cells.map((cell) => html('td', {}, cell))),
  );
  const table = html('table', { class: 'responses' }, html('thead', {}, head), html('tbody', {}, ...rows));
  const section = paper(
    'Protection against its curves',
    `${noClearing[0]!.toUpperCase()}${noClearing.slice(1)}; where an excursion is counted both ways, the nearer to the curve.`,
    html('div', { class: 'scroll', tabindex: 0 }, table),
  );
  section.classList.add('wide');
  return [section];
}
