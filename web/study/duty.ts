/** A duty: what its course judges, temperatures and charge over the calendar, and how the runs of its stretches came out. */
import { dutyWord } from '../../src/studies/duty/judge.ts';
import {
  dutySentence,
  findingHead,
  findingRows,
  lengthWords,
  momentHead,
  momentRows,
  passWords,
  stretchHead,
  stretchRows,
} from '../../src/studies/duty/paper.ts';
import type { DutyReport } from '../../src/studies/duty/report.ts';
import { type CourseDrawing, courseChart } from './course-chart.ts';
import { answerIn, panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';
import { foldedTrial } from './trial/box.ts';

const drawings: readonly CourseDrawing[] = [
  {
    title: 'rise, K',
    unit: 'K',
    factor: 1,
    lines: [
      { name: 'warmest bar over its air', of: ({ bar_K }) => bar_K },
      { name: 'worst joint over its bar', of: ({ joint_K }) => joint_K },
    ],
  },
  {
    title: 'hot spot, °C',
    unit: 'degC',
    factor: 1,
    lines: [
      { name: 'cells of a tray', of: ({ tray_degC }) => tray_degC },
      { name: 'capacitors of a bank', of: ({ bank_degC }) => bank_degC },
      { name: 'packs of a battery shelf', of: ({ pack_degC }) => pack_degC },
    ],
  },
  {
    title: 'charge, %',
    unit: 'ratio',
    factor: 100,
    lines: [{ name: 'battery shelf with the least charge', of: ({ charge_ratio }) => charge_ratio }],
  },
];

export function showDuty(page: StudyPage, report: DutyReport): void {
  const { course, last_course, stretches, moments, round_s } = report;
  const { word, verdict } = dutyWord(report);
  answerIn(page, word, verdict, dutySentence(report), passWords(report));
  panel(page, 'Limits judged by the course', '', table(page, findingHead, findingRows(report)));
  const shown = last_course.length > 0 ? last_course : course;
  const charts = drawings.flatMap((drawing) => courseChart(shown, drawing) ?? []);
  const which = last_course.length > 0 ? 'the last round that differs' : 'the first round';
  if (charts.length > 0)
    panel(
      page,
      'Course',
      `The worst of each kind over ${lengthWords(round_s)}, ${which}; lines mark where a stretch begins.`,
      ...charts,
    );
  if (moments.length > 0) panel(page, 'Moments', '', table(page, momentHead, momentRows(report)));
  panel(
    page,
    'Stretches',
    'One fast run each; what the course judges is left out of how it came out.',
    table(page, stretchHead, stretchRows(report)),
    ...stretches.map(({ name, trial, letter: own }) => foldedTrial(page, { name, trial, letter: own })),
  );
}
