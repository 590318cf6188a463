/** What a study was made from, and what its reader must bear in mind: after the pictures, on every study's page. */
import type { StudyHead } from '../../src/studies/head.ts';
import { html } from '../dom.ts';
import { panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';

export function showInputs(page: StudyPage, { inputs, tool_version }: StudyHead): void {
  const files = inputs.flatMap((input) => ('path' in input ? [[input.path, input.sha256]] : []));
  const changes = inputs.flatMap((input) =>
    'change' in input ? [[input.change.path, String(input.change.value)]] : [],
  );
  panel(
    page,
    'Inputs',
    `Made with version ${tool_version}.`,
    table(page, ['file', 'SHA-256'], files),
    ...(changes.length === 0 ? [] : [table(page, ['changed value', 'set to'], changes)]),
  );
}

export function showCautions(page: StudyPage, cautions: readonly string[]): void {
  if (cautions.length === 0) return;
  panel(
    page,
    'Cautions',
    '',
    html('ul', { class: 'cautions' }, ...cautions.map((words) => html('li', {}, page.words.text(words)))),
  );
}
