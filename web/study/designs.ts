/** A study of designs: the front as a picture and a table, a bill of parts for each of it, every design. */
import { designsWord, isCleanFront } from '../../src/studies/designs/judge.ts';
import { blindWords, designsNotes, designsSentence, searchWords } from '../../src/studies/designs/paper.ts';
import type { DesignRow, DesignsReport } from '../../src/studies/designs/report.ts';
import {
  billHead,
  billRows,
  designWordsHead,
  designWordsRow,
  frontHead,
  frontRows,
} from '../../src/studies/designs/tables.ts';
import { wordsOf } from '../../src/studies/search/axes.ts';
import { letterWords } from '../../src/studies/trials/states.ts';
import { html } from '../dom.ts';
import { frontOver } from './front.ts';
import { answerIn, panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';
import { trialBox } from './trial/box.ts';

export function showDesigns(page: StudyPage, report: DesignsReport): void {
  const { front } = report;
  answerIn(
    page,
    designsWord(report),
    isCleanFront(report) ? 'pass' : report.front.length === 0 ? 'fail' : 'pass_with_conditions',
    designsSentence(report),
    [
      `${searchWords(report)}.`,
      ...designsNotes(report),
      ...blindWords(report).map((words) => `${words}.`),
    ].join(' '),
  );
  panel(
    page,
    'The designs',
    'A dot is on the front, a ring is beaten by another one, a cross fails. Choose one for its tightest run.',
    drawnWithRuns(page, report),
  );
  if (front.length > 0)
    panel(
      page,
      'The front',
      'Each passes, and no other one that passes is as good in every objective and better in one.',
      table(page, frontHead(report).map(page.words.text), frontRows(report)),
    );
  else
    panel(
      page,
      'What was tried',
      'No design passes; each with what it fails by.',
      table(page, designWordsHead(report).map(page.words.text), report.designs.map(designWordsRow(report))),
    );
  for (const { values, bill } of front)
    panel(
      page,
      page.words.text(`Bill of parts: ${wordsOf(values)}`),
      '',
      table(page, billHead, billRows(bill)),
    );
}

function drawnWithRuns(page: StudyPage, report: DesignsReport): HTMLElement {
  const detail = html('div', { class: 'detail', hidden: true, 'aria-live': 'polite' });
  const show = (row: DesignRow): void => {
    detail.hidden = false;
    detail.replaceChildren(...chosen(page, row, report.situations));
  };
  return html('div', {}, frontOver(report, page.words, show), detail);
}

function chosen(
  page: StudyPage,
  { values, run }: DesignRow,
  situations: readonly string[],
): readonly HTMLElement[] {
  const name = wordsOf(values);
  if (run === null) return [html('p', {}, page.words.text(`${name} was not run.`))];
  const { letter, binding, situation, headrooms_ratio, trials, tightest_ratio } = run;
  const at = Math.max(0, headrooms_ratio.indexOf(tightest_ratio));
  const said = `${name} ${letterWords[letter]}; tightest: ${binding}${situation === '' ? '' : ` in ${situation}`}`;
  return [
    html('p', {}, page.words.text(said)),
    trialBox(page, {
      name: `${name} in ${situations[at]!}`,
      trial: trials[at]!,
      // The letter is that of the worst of all situations.
      letter: trials.length === 1 ? letter : null,
    }),
  ];
}
