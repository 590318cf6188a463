/** A sizing: the map of candidates over situations, what each limit asks for, the hand rules, what would help. */

import { pathWords } from '../../src/studies/path-words.ts';
import { isClean, isKept, sizeWord } from '../../src/studies/size/judge.ts';
import {
  constraintHead,
  constraintRows,
  leverHead,
  leverRows,
  lineHead,
  lineRow,
  sizeNotes,
  sizeSentence,
  sizeSimulations,
} from '../../src/studies/size/paper.ts';
import type { SizeReport } from '../../src/studies/size/report.ts';
import { letterWords } from '../../src/studies/trials/states.ts';
import { map } from './map.ts';
import { answerIn, panel, table } from './parts.ts';
import type { StudyPage } from './study-page.ts';

export function showSize(page: StudyPage, report: SizeReport): void {
  const { result, candidates, situations, estimate, monotone, front } = report;
  answerIn(
    page,
    sizeWord(report),
    isClean(report) ? 'pass' : result === null ? 'fail' : 'pass_with_conditions',
    sizeSentence(report),
    `${sizeSimulations(report)}; ${monotone.note}. ${sizeNotes(report).join(' ')}`.trim(),
  );
  const wanted = result === null ? '' : Object.values(result).join(', ');
  panel(
    page,
    'Candidates over situations',
    'Tightest headroom of all limits, negative where one is exceeded. Choose a cell for its run.',
    map(
      page,
      Object.keys(candidates[0]?.values ?? {})
        .map(pathWords)
        .join(', '),
      situations.map(({ name }) => name),
      candidates.map(
        ({ values, letter, conditions, warnings, headrooms_ratio, binding, situation, trials }) => {
          const name = Object.values(values).join(', ');
          const named = Object.entries(values)
            .map(([path, value]) => `${pathWords(path)} ${value}`)
            .join(', ');
          return {
            name,
            cells: headrooms_ratio.map((headroom, k) => ({
              headroom,
              good: isKept(headroom),
              chosen: name === wanted,
              said: `${named} in ${situations[k]!.name}; tightest: ${binding} in ${situation}; ${letterWords[letter]}`,
              restsOn: [...conditions, ...warnings],
              trial: {
                name: `${named} in ${situations[k]!.name}`,
                trial: trials[k]!,
                // The letter is that of the worst of all situations.
                letter: situations.length === 1 ? letter : null,
              },
            })),
          };
        },
      ),
    ),
  );
  if (front.length > 0)
    panel(
      page,
      'Frontier: least of the second parameter for each value of the first',
      '',
      table(
        page,
        ['first parameter', 'least of the second'],
        front.map(({ first, second }) => [first, second ?? 'none']),
      ),
    );
  panel(page, 'What each limit requires', '', table(page, constraintHead, constraintRows(report)));
  if (report.levers.length > 0)
    panel(
      page,
      'What would help next',
      'Each change alone, one step below the answer.',
      table(page, leverHead, leverRows(report)),
    );
  if (estimate !== null) {
    panel(
      page,
      'First estimate by hand',
      `Energy alone would require ${estimate.energyAlone}; rule ${estimate.most?.rule} requires ${estimate.most?.trays}; with factors and a spare ${estimate.withSpare}.`,
      table(page, lineHead, estimate.lines.map(lineRow)),
    );
  }
}
