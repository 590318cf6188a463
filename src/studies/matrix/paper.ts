/** A matrix as Markdown and as CSV. */

import { namedFew } from '../../analysis/words/named-few.ts';
import { counted } from '../../base/counted.ts';
import { formatQuantity } from '../../base/quantity.ts';
import { csvTable, markdownTable, type PlainRow } from '../tables.ts';
import { numbersOf } from '../trials/run-outcome.ts';
import { letterWords, statesNotes, statesWords } from '../trials/states.ts';
import { type MatrixCell, worstOf } from './cell.ts';
import { coverageWords } from './coverage.ts';
import type { MatrixReport } from './report.ts';
import { shownIn, shownTables, shownText } from './shown-tables.ts';

/** A clean pass of all is said in words of its own; everything else is counted by how it came out. */
export function matrixSentence({ cells, states, runs }: MatrixReport): string {
  const worst = worstOf(cells);
  const where = `${decidedWords(worst)}: ${placeOf(worst)}`;
  if (states.passed === runs && states.warned === 0) return `All ${runs} pass; tightest is ${where}.`;
  return `Of ${counted(runs, 'cell')} ${statesWords(states)}; ${states.passed === runs ? 'tightest' : 'worst'} is ${where}.`;
}

/** The limit that decides a cell with its own value, limit and unit. */
export function decidedWords(cell: MatrixCell): string {
  return cell.value === null ? cell.binding.replaceAll('_', ' ') : `${cell.binding} ${numbersOf(cell)}`;
}

/** The verdict of a cell; first that it collapsed, which other limits follow from; last what was warned of. */
export function cellWords({ collapse, summary, warnings }: MatrixCell): string {
  const fallen = collapse === null || summary.includes(collapse) ? '' : `Collapsed: ${collapse}. `;
  return `${fallen}${summary}${warnings.length === 0 ? '' : ` Warned of: ${warnings.join('; ')}.`}`;
}

export function placeOf({ fault, redundancy, corner, later_s }: MatrixCell): string {
  const moment = later_s === 0 ? [] : [`${formatQuantity(later_s, 'time')} later`];
  return [fault, ...moment, redundancy, corner].filter((word) => word !== 'as it is').join(', ');
}

/** Letters that occur, each with its word. */
export function legendOf({ cells }: MatrixReport): string {
  const seen = new Set(cells.map(({ letter }) => letter));
  return [...seen].map((letter) => `${letter} ${letterWords[letter]}`).join(', ');
}

/** Cells that show nothing of their fault, '' where there are none: none of them says anything of it. */
export function unfeltNote({ cells }: MatrixReport): string {
  const dead = cells.filter(({ unfelt }) => unfelt !== null);
  if (dead.length === 0) return '';
  const named = namedFew(
    dead.map((cell) => `${placeOf(cell)} (${cell.unfelt})`),
    4,
    '; ',
  );
  return `In ${counted(dead.length, 'cell')} the fault did not happen: ${named}.`;
}

/** What the cells do not say of AC ripple, '' where they say it. */
export function rippleNote({ ripple_not_after, faults }: MatrixReport): string {
  const n = ripple_not_after.length;
  if (n === 0) return '';
  const which = n === faults.length - 1 && n > 3 ? 'every fault' : ripple_not_after.join('; ');
  return `Ripple, tones and range of AC power are judged 10 s clear of every event and walk-in. The run ends too early for that after: ${which}. There they are judged before the fault only.`;
}

/** One character a corner, and the tightest cell of each row: what fits a terminal. */
export function shortHead({ corners }: MatrixReport): string[] {
  return ['fault', corners.map((_, k) => (k + 1) % 10).join(' '), 'tightest', 'in'];
}

export function shortRows({ faults, redundancy, corners, cells }: MatrixReport): PlainRow[] {
  return faults.flatMap((fault, f) =>
    redundancy.map((spare, r) => {
      const first = (f * redundancy.length + r) * corners.length;
      const row = cells.slice(first, first + corners.length);
      const tight = worstOf(row);
      return [
        redundancy.length === 1 ? fault : `${fault}, ${spare}`,
        row.map(({ letter }) => letter).join(' '),
        decidedWords(tight),
        tight.corner,
      ];
    }),
  );
}

/** The corners behind the numbers of the short table. */
export function cornerWords({ corners }: MatrixReport): string {
  return corners.map((name, k) => `${k + 1} ${name}`).join(', ');
}

/** One row per fault and redundancy, one column per corner: letter and binding limit. */
export function gridHead({ corners }: MatrixReport): string[] {
  return ['fault', ...corners];
}

export function gridRows({ faults, redundancy, corners, cells }: MatrixReport): PlainRow[] {
  return faults.flatMap((fault, f) =>
    redundancy.map((spare, r) => [
      redundancy.length === 1 ? fault : `${fault}, ${spare}`,
      ...corners.map((_, c) => {
        const cell = cells[(f * redundancy.length + r) * corners.length + c]!;
        return `${cell.letter} ${decidedWords(cell)}`;
      }),
    ]),
  );
}

export function matrixMarkdown(report: MatrixReport): string {
  const { title, study, about, cells } = report;
  return [
    `# ${title === '' ? study : title}`,
    about,
    `**${matrixSentence(report)}**`,
    ...statesNotes(report.states),
    `Each cell: the verdict, the limit that decides, its value against the limit, its headroom. ${legendOf(report)}.`,
    coverageWords(report.coverage),
    ...[unfeltNote(report), rippleNote(report)].filter((note) => note !== ''),
    markdownTable(gridHead(report), gridRows(report)),
    ...shownTables(report).flatMap(({ limit, rows }) => [
      `## ${limit}`,
      markdownTable(
        gridHead(report),
        rows.map(({ name, cells: row }) => [name, ...row.map((cell) => shownText(cell, limit))]),
      ),
    ]),
    ...(report.fault_words.every((words) => words === '')
      ? []
      : [
          '## What the faults are',
          report.faults
            .flatMap((fault, k) =>
              report.fault_words[k] === '' ? [] : [`- ${fault}: ${report.fault_words[k]}`],
            )
            .join('\n'),
        ]),
    '## To repeat a cell',
    ...cells.map((cell) => `- ${cell.letter} ${placeOf(cell)}: ${cellWords(cell)}\n  \`${cell.replay}\``),
    '',
  ].join('\n\n');
}

const columns = [
  'fault',
  'redundancy',
  'corner',
  'letter',
  'verdict',
  'status',
  'binding',
  'value',
  'limit',
  'unit',
  'headroom_ratio',
  'node',
  'later_s',
  'unfelt',
  'replay',
] as const;

export function matrixCsv({ cells, shows = [] }: MatrixReport): string {
  return csvTable(
    [...columns, ...shows, 'conditions', 'warnings'],
    cells.map((cell) => [
      ...columns.map((column) => cell[column]),
      ...shows.map((limit) => shownIn(cell, limit)?.value ?? null),
      cell.conditions.join('; '),
      cell.warnings.join('; '),
    ]),
  );
}
