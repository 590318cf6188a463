/** Faults over corners: a letter each, its binding limit, and on choice its run. */

import { coverageWords } from '../../src/studies/matrix/coverage.ts';
import {
  cellWords,
  decidedWords,
  legendOf,
  matrixSentence,
  placeOf,
  rippleNote,
  unfeltNote,
} from '../../src/studies/matrix/paper.ts';
import type { MatrixReport } from '../../src/studies/matrix/report.ts';
import { shownIn, shownTables, shownText } from '../../src/studies/matrix/shown-tables.ts';
import { areClean, isPass, statesNotes } from '../../src/studies/trials/states.ts';
import { map } from './map.ts';
import { answerIn, panel } from './parts.ts';
import type { StudyPage } from './study-page.ts';

export function showMatrix(page: StudyPage, report: MatrixReport): void {
  const { cells, corners, faults, redundancy, passed, runs } = report;
  answerIn(
    page,
    `${passed} of ${runs}`,
    areClean(report.states, runs) ? 'pass' : 'fail',
    matrixSentence(report),
    `${legendOf(report)}. ${[coverageWords(report.coverage), unfeltNote(report), ...statesNotes(report.states), rippleNote(report)].filter((note) => note !== '').join(' ')}`.trim(),
  );
  for (const [r, spare] of redundancy.entries()) {
    panel(
      page,
      redundancy.length === 1 ? 'Faults over corners' : `Faults over corners: ${spare}`,
      'Verdict, and the deciding limit: value against limit, headroom. Choose a cell for its run.',
      map(
        page,
        'fault',
        corners,
        faults.map((fault, f) => ({
          name: fault,
          about: report.fault_words[f] ?? '',
          cells: corners.map((_, c) => {
            const cell = cells[(f * redundancy.length + r) * corners.length + c]!;
            return {
              headroom: cell.headroom_ratio,
              good: isPass(cell.letter),
              text: cell.letter,
              under: decidedWords(cell),
              said: `${placeOf(cell)}: ${cellWords(cell)}`,
              restsOn: cell.conditions,
              trial: { name: placeOf(cell), trial: cell.trial, letter: cell.letter },
            };
          }),
        })),
      ),
    );
  }
  for (const { limit, rows } of shownTables(report)) {
    panel(
      page,
      report.limit_titles[limit] ?? limit,
      'Value and where, in every cell; colour: headroom. Choose a cell for its run.',
      map(
        page,
        'fault, redundancy',
        corners,
        rows.map(({ name, cells: row }) => ({
          name,
          cells: row.map((cell) => {
            const found = shownIn(cell, limit);
            return {
              headroom: found?.headroom_ratio ?? null,
              good: found === null || found.verdict === 'inconclusive' ? null : found.verdict !== 'fail',
              text: shownText(cell, limit),
              said: `${placeOf(cell)}: ${limit} ${shownText(cell, limit)}`,
              restsOn: [],
              trial: { name: placeOf(cell), trial: cell.trial, letter: cell.letter },
            };
          }),
        })),
      ),
    );
  }
}
