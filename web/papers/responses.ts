/** How units and bus answered each edge and event: a row a unit; the rows of `run --steps`. */
import {
  noResponses,
  responseHead,
  responseRows,
  responsesHeading,
} from '../../src/analysis/words/response-words.ts';
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { paper } from './paper.ts';

export function responses({ report }: Bundle): HTMLElement {
  const heading = report.responses === undefined ? null : responsesHeading(report.responses);
  if (report.responses === undefined || heading === null) return paper('Responses to steps', noResponses);
  const [unit, ...rest] = responseHead;
  const head = html('tr', {}, ...[unit, ...rest].map((cell) => html('th', { scope: 'col' }, cell)));
  const rows = responseRows(report.responses).map(([name = '', ...cells]) =>
    html('tr', {}, html('th', { scope: 'row' }, name), ...cells.map((cell) => html('td', {}, cell))),
  );
  const table = html('table', { class: 'responses' }, html('thead', {}, head), html('tbody', {}, ...rows));
  const section = paper('Responses to steps', heading, html('div', { class: 'scroll', tabindex: 0 }, table));
  section.classList.add('wide');
  return section;
}
