/** What went in: every file with its whole SHA-256, every change, what a recorded load and a measurement are. */
import type { Bundle } from '../../src/bundle/format.ts';
import { html } from '../dom.ts';

export function inputsPart({ report, provenance }: Bundle): HTMLElement {
  const files = report.inputs.flatMap((input) => ('change' in input ? [] : [input]));
  const changes = report.inputs.flatMap((input) => ('change' in input ? [input.change] : []));
  const { measured } = report;
  const sums: readonly (readonly [string, string])[] = [
    ...files.map(({ path, sha256 }) => [path, sha256] as const),
    ...(measured === undefined ? [] : [[measured.file, measured.sha256] as const]),
    ['source of the tool', provenance.build.source_sha256],
  ];
  return html(
    'section',
    {},
    html('h2', {}, 'Inputs'),
    html(
      'table',
      { class: 'checksums' },
      html(
        'thead',
        {},
        html('tr', {}, ...['file', 'SHA-256'].map((head) => html('th', { scope: 'col' }, head))),
      ),
      html(
        'tbody',
        {},
        ...sums.map(([name, sum]) =>
          html('tr', {}, html('th', { scope: 'row' }, name), html('td', {}, html('code', {}, sum))),
        ),
      ),
    ),
    html('h3', {}, 'Changes'),
    changes.length === 0
      ? html('p', {}, 'None: as in the files.')
      : list(changes.map(({ path, value }) => `${path} = ${value}`)),
    ...told('The recorded load', report.load.statement),
    ...told('Before the comparison with the measurement is trusted', measured?.warnings ?? []),
  );
}

function told(title: string, sentences: readonly string[]): HTMLElement[] {
  return sentences.length === 0 ? [] : [html('h3', {}, title), list(sentences)];
}

function list(lines: readonly string[]): HTMLElement {
  return html('ul', {}, ...lines.map((line) => html('li', {}, line)));
}
