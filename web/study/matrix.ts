/** Faults over corners: a letter each, its binding limit, and on choice the command that repeats it. */

import {
  cellWords,
  decidedWords,
  legendOf,
  matrixSentence,
  placeOf,
  rippleNote,
} from '../../src/studies/matrix/paper.ts';
import type { MatrixReport } from '../../src/studies/matrix/report.ts';
import { areClean, isPass, statesNotes } from '../../src/studies/trials/states.ts';
import { answerIn, map, panel } from './parts.ts';

export function showMatrix(answer: HTMLElement, host: HTMLElement, report: MatrixReport): void {
  const { cells, corners, faults, redundancy, passed, runs } = report;
  answerIn(
    answer,
    `${passed} of ${runs}`,
    areClean(report.states, runs),
    matrixSentence(report),
    `${legendOf(report)}. ${[...statesNotes(report.states), rippleNote(report)].join(' ')}`.trim(),
  );
  for (const [r, spare] of redundancy.entries()) {
    panel(
      host,
      redundancy.length === 1 ? 'Faults over corners' : `Faults over corners: ${spare}`,
      'Verdict, and the deciding limit: value against limit, headroom.',
      map(
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
              detail: [
                `${placeOf(cell)}: ${cellWords(cell)}`,
                ...cell.conditions.map((words) => `Condition: ${words}.`),
                ...(report.fault_words[f] === '' ? [] : [`The fault: ${report.fault_words[f]}.`]),
              ],
              replay: cell.replay,
            };
          }),
        })),
      ),
    );
  }
}
