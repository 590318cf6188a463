/** Files with their sums, changes, and what is known of a recorded load. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';
import { paper } from './paper.ts';

export function inputs({ report, scenario }: Bundle): HTMLElement {
  const files: HTMLElement[] = [];
  const changes: HTMLElement[] = [];
  for (const input of report.inputs) {
    if ('change' in input)
      changes.push(html('li', {}, html('code', {}, `${input.change.path} = ${input.change.value}`)));
    else
      files.push(
        html(
          'li',
          {},
          input.path,
          html('code', { class: 'sum', title: input.sha256 }, `SHA-256 ${input.sha256.slice(0, 16)}…`),
        ),
      );
  }
  const statement = report.load.statement.map((line) => html('li', {}, line));
  const none = changes.length === 0 ? [html('p', {}, 'None: as in the files.')] : [];
  return paper(
    'Inputs',
    `${scenario.about}`,
    html('ul', {}, ...files),
    html('h4', {}, 'Changes'),
    ...none,
    html('ul', {}, ...changes),
    ...(statement.length === 0 ? [] : [html('h4', {}, 'The recorded load'), html('ul', {}, ...statement)]),
  );
}
