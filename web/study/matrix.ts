/** Faults over corners: a letter each, its binding limit, and on choice the command that repeats it. */
import type { MatrixReport } from '../../src/studies/matrix/matrix.ts';
import { cellWords, legendOf, matrixSentence, placeOf, rippleNote } from '../../src/studies/matrix/report.ts';
import { wholePercent } from '../numbers.ts';
import { answerIn, map, panel } from './parts.ts';

export function showMatrix(answer: HTMLElement, host: HTMLElement, report: MatrixReport): void {
  const { cells, corners, faults, redundancy, passed, runs } = report;
  answerIn(
    answer,
    `${passed} of ${runs}`,
    passed === runs,
    matrixSentence(report),
    `${legendOf(report)}. ${rippleNote(report)}`.trim(),
  );
  for (const [r, spare] of redundancy.entries()) {
    panel(
      host,
      redundancy.length === 1 ? 'Faults over corners' : `Faults over corners: ${spare}`,
      'Verdict, headroom and the limit that binds.',
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
              text: `${cell.letter} ${wholePercent(cell.headroom_ratio)}`,
              under: cell.binding,
              detail: [
                `${placeOf(cell)}: ${cellWords(cell)}`,
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
