/** A sizing: the map of candidates over situations, what each limit asks for, the hand rules, what would help. */

import { counted } from '../../src/base/counted.ts';
import { isClean, isKept, sizeWord } from '../../src/studies/size/judge.ts';
import {
  constraintHead,
  constraintRows,
  leverHead,
  leverRows,
  lineHead,
  lineRow,
  sizeSentence,
} from '../../src/studies/size/paper.ts';
import type { SizeReport } from '../../src/studies/size/report.ts';
import { letterWords, statesNotes, statesWords } from '../../src/studies/trials/states.ts';
import { answerIn, map, panel, table } from './parts.ts';
import { pathWords } from './path-words.ts';

export function showSize(answer: HTMLElement, host: HTMLElement, report: SizeReport): void {
  const { result, candidates, situations, estimate, monotone, runs, front, states } = report;
  answerIn(
    answer,
    sizeWord(report),
    isClean(report),
    sizeSentence(report),
    `${counted(runs, 'simulation')}: ${statesWords(states)}; ${monotone.note}. ${statesNotes(states).join(' ')}`.trim(),
  );
  const wanted = result === null ? '' : Object.values(result).join(', ');
  panel(
    host,
    'Candidates over situations',
    'Tightest headroom of all limits, negative where one is exceeded. Choose a cell for the command that repeats the tightest run of its candidate.',
    map(
      Object.keys(candidates[0]?.values ?? {})
        .map(pathWords)
        .join(', '),
      situations.map(({ name }) => name),
      candidates.map(
        ({ values, letter, conditions, warnings, headrooms_ratio, binding, situation, replay }) => {
          const name = Object.values(values).join(', ');
          return {
            name,
            cells: headrooms_ratio.map((headroom, k) => ({
              headroom,
              good: isKept(headroom),
              chosen: name === wanted,
              detail: [
                `${name} in ${situations[k]!.name}; tightest: ${binding} in ${situation}; ${letterWords[letter]}`,
                ...conditions,
                ...warnings,
              ],
              replay,
            })),
          };
        },
      ),
    ),
  );
  if (front.length > 0)
    panel(
      host,
      'Frontier: least of the second parameter for each value of the first',
      '',
      table(
        ['first parameter', 'least of the second'],
        front.map(({ first, second }) => [first, second ?? 'none']),
      ),
    );
  panel(host, 'What each limit requires', '', table(constraintHead, constraintRows(report)));
  panel(
    host,
    'What would help next',
    'Each change alone, one step below the answer.',
    table(leverHead, leverRows(report)),
  );
  if (estimate !== null) {
    panel(
      host,
      'First estimate by hand',
      `Energy alone would require ${estimate.energyAlone}; rule ${estimate.most?.rule} requires ${estimate.most?.trays}; with factors and a spare ${estimate.withSpare}.`,
      table(lineHead, estimate.lines.map(lineRow)),
    );
  }
}
