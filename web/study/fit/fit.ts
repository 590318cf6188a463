/** The page of a fit: values with their intervals and profiles, measured over simulated, what is left and what would explain it. */

import type { FitDocument } from '../../../src/studies/fit/fit-document.ts';
import type { FitReport } from '../../../src/studies/fit/fit-report.ts';
import { fittedTrial } from '../../../src/studies/fit/fitted-trial.ts';
import { fitWord, isBounded } from '../../../src/studies/fit/judge.ts';
import {
  bandHead,
  bandRows,
  channelHead,
  channelRows,
  fitRemarks,
  fitSentence,
  placeSentence,
  valueHead,
  valueRows,
} from '../../../src/studies/fit/paper.ts';
import { html } from '../../dom.ts';
import { answerIn, panel, table } from '../parts.ts';
import type { StudyPage } from '../study-page.ts';
import { trialBox } from '../trial/box.ts';
import { laidChart } from './laid.ts';
import { profileChart } from './profile.ts';

export function showFit(page: StudyPage, report: FitDocument): void {
  const { result, channels, profile_end } = report;
  answerIn(
    page,
    fitWord(report),
    isBounded(report) ? 'pass' : 'fail',
    fitSentence(report),
    placeSentence(report),
  );
  panel(
    page,
    'Values',
    'Intervals of 95 %: by the profile, and as if the model were straight over them.',
    table(page, valueHead, valueRows(report)),
    trialBox(page, { name: 'the scenario with the values found', trial: fittedTrial(report), letter: null }),
  );
  const sentences = fitRemarks(report);
  if (sentences.length > 0)
    panel(
      page,
      'What to know about them',
      '',
      html('ul', { class: 'cautions' }, ...sentences.map((words) => html('li', {}, page.words.text(words)))),
    );
  panel(
    page,
    'Measured over simulated',
    'Dots: measured; dashed: simulated with the values from the start; solid: with those found. Of each stretch of time the sample that is furthest off.',
    ...channels.map(laidChart),
  );
  panel(
    page,
    'What is left',
    'Measured less simulated, as far as gain and bias within the class of the instrument do not explain it.',
    table(page, channelHead, channelRows(report)),
    table(page, bandHead, bandRows(report)),
  );
  const profiled = Object.entries(result).filter(([, { profile }]) => profile.length > 1);
  if (profiled.length > 0)
    panel(
      page,
      'Profiles',
      'Each value moved, the others following: dots were run, between them the curve is interpolated; dashed: as if the model were straight. An interval ends where the curve crosses the line.',
      ...profiled.map(([path, one]) => profileChart(path, one, profile_end)),
    );
  if (Object.keys(result).length > 1)
    panel(
      page,
      'Correlation of the values found',
      'Near 1 or −1 the measurement shows a combination better than each alone.',
      correlationTable(page, report),
    );
}

function correlationTable(page: StudyPage, { correlation }: FitReport): HTMLElement {
  const paths = Object.keys(correlation);
  return table(
    page,
    ['', ...paths.map((path) => page.words.text(path))],
    paths.map((a) => [a, ...paths.map((b) => correlationText(correlation[a]?.[b] ?? null))]),
  );
}

function correlationText(r: number | null): string {
  return r === null ? '–' : r.toFixed(2).replace('-', '−');
}
