/** A statement as the table that goes back to who wrote the specification: a line each, numbers in its own units. */
import { numberCell, textCell } from '../../base/csv-cell.ts';
import type { Statement, StatementLine } from './line.ts';
import { stateWords } from './words.ts';

const head = [
  'clause',
  'requirement',
  'bound',
  'applies',
  'state',
  'found',
  'margin',
  'unit',
  'run',
  'node',
  'time_s',
  'because',
  'conditions',
  'source',
] as const;

export function statementCsv(statement: Statement): string {
  const rows = statement.lines.map((line) => rowOf(line, statement.conditions).join(','));
  return `${[head.join(','), ...rows].join('\n')}\n`;
}

function rowOf(line: StatementLine, common: readonly string[]): string[] {
  const { requirement, state, worst, because, conditions } = line;
  const number = (value: number | null | undefined): string =>
    value === null || value === undefined ? '' : numberCell(Number(value.toPrecision(9)));
  const under = state === 'met_with_conditions' ? [...conditions, ...common].join('; ') : '';
  return [
    textCell(requirement.clause),
    textCell(requirement.words),
    textCell(requirement.bound),
    textCell(requirement.applies),
    textCell(stateWords[state]),
    number(worst?.value),
    number(worst?.margin),
    textCell(requirement.judged?.unit ?? ''),
    textCell(worst?.run ?? ''),
    textCell(worst?.node ?? ''),
    number(worst?.time_s),
    textCell(because ?? ''),
    textCell(under),
    textCell(requirement.source),
  ];
}
