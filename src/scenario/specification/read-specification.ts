/**
 * A specification that another party wrote, as a table: a line each requirement. Columns are found by their names, in any
 * order. What can be judged becomes limits; what cannot is kept, and stays open in every statement.
 */
import type { Problem } from '../../base/problem.ts';
import { refuseUnknownKeys } from '../text/branches.ts';
import { type CsvTable, readCsvTable } from '../text/csv-table.ts';
import { type Branch, type Leaf, problemAt } from '../text/document.ts';
import { asLimits } from './as-limits.ts';
import {
  neededColumns,
  type ReadRequirement,
  type RequirementCells,
  type RequirementColumn,
  readRequirement,
  requirementColumns,
} from './read-requirement.ts';
import type { Specification } from './requirement.ts';

export interface ReadSpecification {
  readonly specification: Specification;
  /** What can be judged of it, as the tree of a limits file. */
  readonly limits: Branch;
}

/** Whether a file of limits is a table of requirements. */
export function isSpecification(file: string): boolean {
  return /\.csv$/i.test(file);
}

/** Null where nothing of it can be read; everything wrong is added to `problems`. */
export function readSpecification(file: string, text: string, problems: Problem[]): ReadSpecification | null {
  const table = readCsvTable(file, text, problems);
  if (table === null || !hasColumns(table, problems)) return null;
  if (table.rows.length === 0)
    problems.push(problemAt(table.head[0]!.origin, '', 'no requirement', 'a line each', 'add them below'));
  const seen = new Map<string, Leaf>();
  const read: ReadRequirement[] = [];
  for (const row of table.rows) {
    const cells = cellsOf(table, row, problems);
    if (cells === null) continue;
    const limit = limitIdOf(cells.clause.text);
    const other = seen.get(limit);
    if (cells.clause.text !== '' && other !== undefined) problems.push(repeated(cells.clause, other));
    seen.set(limit, other ?? cells.clause);
    const one = readRequirement(cells, { commaFile: table.mark === ';', limit }, problems);
    if (one !== null) read.push(one);
  }
  const { tree, requirements } = asLimits(file, read, problems);
  return {
    specification: {
      file,
      title: table.remarks[0] ?? '',
      requirements: requirements.map(({ requirement }) => requirement),
    },
    limits: tree,
  };
}

/** A name that a path may hold: `clause-3-1-2`. */
function limitIdOf(clause: string): string {
  return `clause-${clause.trim().replace(/[^A-Za-z0-9]+/g, '-')}`;
}

function repeated(clause: Leaf, other: Leaf): Problem {
  const alike = clause.text === other.text ? 'a second time' : `, which reads like ${other.text}`;
  return problemAt(
    clause.origin,
    `clause ${clause.text}`,
    `${clause.text}${alike === 'a second time' ? ' ' : ''}${alike}; the first is in line ${other.origin.line}`,
    'a number of its own for each requirement',
    'write 3.1a and 3.1b where one clause asks for two things',
  );
}

function hasColumns({ head }: CsvTable, problems: Problem[]): boolean {
  const before = problems.length;
  const names = head.map(({ text }) => text);
  const keyed = head.map((cell) => [cell.text, { node: cell, keyOrigin: cell.origin }] as const);
  const [first] = head;
  refuseUnknownKeys(
    { kind: 'branch', entries: new Map(keyed), origin: first!.origin },
    Object.keys(requirementColumns),
    '',
    problems,
  );
  for (const [k, cell] of head.entries())
    if (names.indexOf(cell.text) < k)
      problems.push(problemAt(cell.origin, '', `column ${cell.text} a second time`, 'each once', 'keep one'));
  for (const column of neededColumns)
    if (!names.includes(column))
      problems.push(
        problemAt(
          first!.origin,
          '',
          `no column ${column}`,
          requirementColumns[column],
          'add it to the head line',
        ),
      );
  return problems.length === before;
}

function cellsOf({ head }: CsvTable, row: readonly Leaf[], problems: Problem[]): RequirementCells | null {
  if (row.length !== head.length) {
    problems.push(
      problemAt(
        row[0]!.origin,
        '',
        `${row.length} cells`,
        `${head.length}, as the head line has`,
        'put cells that hold the separator in quotes, and keep empty cells',
      ),
    );
    return null;
  }
  const empty: Leaf = { kind: 'leaf', text: '', origin: row[0]!.origin };
  const of = (column: RequirementColumn): Leaf => row[head.findIndex(({ text }) => text === column)] ?? empty;
  return Object.fromEntries(
    Object.keys(requirementColumns).map((column) => [column, of(column as RequirementColumn)]),
  ) as RequirementCells;
}
