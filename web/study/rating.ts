/** A rating: the largest load by situation, and pulsed against steady as a map over duty and period. */
import { counted } from '../../src/base/counted.ts';
import { isClean, meetsPractice, overPractice } from '../../src/studies/rating/judge.ts';
import {
  ratingHead,
  ratingNotes,
  ratingRows,
  ratingSentence,
  steadyWords,
} from '../../src/studies/rating/paper.ts';
import type { RatingReport } from '../../src/studies/rating/report.ts';
import { letterWords, statesWords } from '../../src/studies/trials/states.ts';
import { withUnit } from '../numbers.ts';
import { dutyCurve } from './duty-curve.ts';
import { map } from './map.ts';
import { answerIn, panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';
import { foldedTrial } from './trial/box.ts';

export function showRating(page: StudyPage, report: RatingReport): void {
  const { scale_ratio, curve, steady, runs, states } = report;
  answerIn(
    page,
    scale_ratio === null ? 'None' : withUnit(scale_ratio, 'ratio'),
    isClean(report) ? 'pass' : 'fail',
    ratingSentence(report),
    `${counted(runs, 'simulation')}: ${statesWords(states)}. ${ratingNotes(report).join(' ')}`.trim(),
  );
  if (steady !== null) {
    const duties = [...new Set(curve.map(({ duty }) => duty))];
    const periods = [...new Set(curve.map(({ period }) => period))];
    const drawn = dutyCurve(curve);
    panel(
      page,
      'Pulsed against steady',
      `${steadyWords(report)} A cross marks what lies below five sixths.`,
      map(
        page,
        'period, duty',
        duties,
        periods.map((period) => ({
          name: period,
          cells: duties.map((duty) => {
            const point = curve.find((one) => one.duty === duty && one.period === period);
            const ratio = point?.pulsed_over_steady_ratio ?? null;
            return {
              headroom: ratio === null ? null : overPractice(ratio),
              good: ratio === null ? null : meetsPractice(ratio),
              text: ratio === null ? 'none' : withUnit(ratio, 'ratio'),
              under: point?.binding ?? '',
              said:
                point === undefined
                  ? 'None was tried.'
                  : `High level ${withUnit(point.high_W, 'W')} of pulses of ${period}, ${duty} high; one step more exceeds ${point.binding}. ${point.letter === null ? 'None passes.' : `It ${letterWords[point.letter]}.`} Crossed out: below five sixths of the steady load.`,
              restsOn: point?.conditions ?? [],
              trial:
                point === undefined
                  ? null
                  : { name: `pulses of ${period}, ${duty} high`, trial: point.trial, letter: point.letter },
            };
          }),
        })),
      ),
      ...(drawn === null ? [] : [drawn]),
    );
  }
  panel(
    page,
    'By situation',
    '',
    table(page, ratingHead, ratingRows(report)),
    ...report.table.map(({ situation, trial, letter }) =>
      foldedTrial(page, { name: situation, trial, letter }),
    ),
  );
}
