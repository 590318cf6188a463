/** Faults over corners: a letter each, its binding limit, and on choice the command that repeats it. */
import type { MatrixReport } from '../../src/studies/matrix/matrix.ts';
import {
  cellWords,
  decidedWords,
  legendOf,
  matrixSentence,
  placeOf,
  rippleNote,
} from '../../src/studies/matrix/report.ts';
import { statesNotes } from '../../src/studies/states.ts';
import { answerIn, map, panel } from './parts.ts';

export function showMatrix(answer: HTMLElement, host: HTMLElement, report: MatrixReport): void {
  const { cells, corners, faults, redundancy, passed, runs } = report;
  answerIn(
    answer,
    `${passed} of ${runs}`,
    report.states.passed === runs,
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
              good: cell.letter === 'P' || cell.letter === 'C',
              text: cell.letter,
              under: decidedWords(cell),
              detail: [
                `${placeOf(cell)}: ${cellWords(cell)}`,
                ...cell.conditions.map((words) => `Condition: ${words}.`),
                ...(report.fault_words[f] === '' ? [] : [`The fault: ${report.fault_words[f]}.`]),
                cell.replay,
              ],
            };
          }),
        })),
      ),
    );
  }
}
