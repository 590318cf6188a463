/** Opens a page once its file has been read to its end, or says on the page why it cannot be shown and what to do. */
import { BadInput, type Problem } from '../src/base/problem.ts';
import { byId, html } from './dom.ts';

/** `show` draws the page. The line that asks to wait stands until it has begun to. */
export function openPage(show: () => Promise<void>): void {
  addEventListener('DOMContentLoaded', () => {
    opened(show).catch((error: unknown) => {
      byId('opening').hidden = true;
      const note = byId('broken');
      note.replaceChildren(html('h2', {}, 'This page cannot be shown'), ...problemsOf(error).map(told));
      note.hidden = false;
      document.documentElement.dataset['broken'] = 'true';
      throw error;
    });
  });
}

async function opened(show: () => Promise<void>): Promise<void> {
  if (document.getElementById('whole') === null) throw new BadInput([cutShort]);
  await show();
  byId('opening').hidden = true;
  document.documentElement.dataset['ready'] = 'true';
}

const cutShort: Problem = {
  severity: 'error',
  found: 'a page that stops before its end',
  expected: 'the whole file',
  mend: 'it was cut short while it was copied or sent: copy it again, or make it anew with buswake view',
};

/** What is thrown but is no problem with words of its own comes from content that does not fit together. */
function problemsOf(error: unknown): readonly Problem[] {
  if (error instanceof BadInput) return error.problems;
  return [
    {
      severity: 'error',
      found: `content that cannot be drawn (${error instanceof Error ? error.message : String(error)})`,
      expected: 'the content as the tool wrote it',
      mend: 'the file was changed, or its content is of another version: make it anew with buswake view',
    },
  ];
}

function told({ file, path, found, expected, mend }: Problem): HTMLElement {
  const place = [file, path].filter((part) => part !== undefined && part !== '').join(', ');
  const rows: readonly (readonly [string, string])[] = [
    ['in', place],
    ['found', found],
    ['expected', expected],
    ['mend', mend],
  ];
  return html(
    'dl',
    {},
    ...rows
      .filter(([, words]) => words !== '')
      .map(([name, words]) => html('div', {}, html('dt', {}, name), html('dd', {}, words))),
  );
}
