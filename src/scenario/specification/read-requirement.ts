/** A row of a specification to a requirement; what is wrong with any of its cells is said at the cell. */
import type { Problem } from '../../base/problem.ts';
import { readQuantity } from '../../base/quantity.ts';
import { busStay, isQuantityName, type LimitQuantity, quantities } from '../limit-quantities.ts';
import type { LimitColumn } from '../sections/limit-differences.ts';
import { limitColumns } from '../sections/limit-rows.ts';
import { type Leaf, problemAt } from '../text/document.ts';
import { listed, nearestWords } from '../text/nearest.ts';
import { isUnread, readBound, type Unread } from './bound.ts';
import type { Requirement, RequirementLimit } from './requirement.ts';
import { wideSigns } from './wide-signs.ts';
import { plainUnits, readWrittenUnit, type WrittenUnit } from './written-unit.ts';

/** What a specification says of a requirement, by the names of its columns. */
export const requirementColumns = {
  clause: 'number of the requirement, as the specification counts it',
  requirement: 'what must hold, in the words of the specification',
  metric: 'the quantity that is compared; empty, or another word: the requirement is open',
  bound: '<= or max, >= or min, and a number; with its unit, or beside the column unit',
  applies: 'normal, degraded (in an outage), carry (while batteries carry the bus), several of them, or all',
  source: 'the document that asks for it',
  unit: 'unit of the bound, where the bound has none',
  stay: 'how long something stays beyond the bound at most, for example 20 ms; 0 s: not at all',
  band: 'the frequency band that is looked at, for example 0.5 Hz to 3 Hz',
  shown_by: 'of a requirement without a metric: what would show it',
} as const;

export type RequirementColumn = keyof typeof requirementColumns;

/** Columns that are read sign by sign; the others are words of the specification. */
const signColumns = ['metric', 'bound', 'unit', 'stay', 'band', 'applies'] as const;

/** Columns that a table must have. */
export const neededColumns: readonly RequirementColumn[] = [
  'clause',
  'requirement',
  'metric',
  'bound',
  'applies',
  'source',
];

export type RequirementCells = Readonly<Record<RequirementColumn, Leaf>>;

/** A requirement with what its limit's row is made of, each where it was written. */
export interface ReadRequirement {
  readonly requirement: Requirement;
  readonly cells: RequirementCells;
  /** Null where it is open. */
  readonly row: { readonly unit: string; readonly text: string } | null;
}

/** Null where something is wrong. `commaFile`: see `readBound`. `limit`: the id of the limit that it is to become. */
export function readRequirement(
  cells: RequirementCells,
  { commaFile, limit }: { readonly commaFile: boolean; readonly limit: string },
  problems: Problem[],
): ReadRequirement | null {
  const before = problems.length;
  const refuse = (column: RequirementColumn, [found, expected, mend]: Unread): null => {
    problems.push(problemAt(cells[column].origin, pathOf(cells, column), found, expected, mend));
    return null;
  };
  for (const column of ['clause', 'requirement', 'source'] as const)
    if (cells[column].text === '') refuse(column, ['nothing', requirementColumns[column], 'fill the cell']);
  for (const column of signColumns) {
    const unread = wideSigns(cells[column].text);
    if (unread !== null) refuse(column, unread);
  }
  if (problems.length > before) return null;
  const name = cells.metric.text;
  const words = { ...wordsOf(cells), shown_by: '' };
  if (!isQuantityName(name)) {
    const near = nearestWords(name, Object.keys(quantities), 1)[0];
    if (name !== '') problems.push(unknownMetric(cells, near));
    if (problems.slice(before).some(({ severity }) => severity === 'error')) return null;
    const shown_by = cells.shown_by.text || shownOutside(name, near);
    return { requirement: { ...words, judged: null, shown_by }, cells, row: null };
  }
  const quantity: LimitQuantity = quantities[name];
  const bound = readBound(cells.bound.text, cells.unit.text, commaFile);
  const written = isUnread(bound) ? refuse('bound', bound) : readWrittenUnit(bound, quantity);
  const unit = written === null ? null : isWritten(written) ? written : refuse('bound', written);
  const side = isUnread(bound) ? null : bound.side;
  if (side !== null && quantity.side !== 'either' && quantity.side !== side)
    refuse('bound', [
      `${cells.bound.text}, ${side === 'upper' ? 'an upper' : 'a lower'} bound`,
      `${quantity.side === 'upper' ? 'an upper' : 'a lower'} bound: ${name} has no other`,
      'correct the side, or the metric',
    ]);
  const stay = readStay(cells, quantity, refuse);
  const band = readBand(cells, quantity, refuse);
  const columns = readApplies(cells, name, refuse);
  if (problems.slice(before).some(({ severity }) => severity === 'error')) return null;
  if (unit === null || side === null || columns === null) return null;
  const judged: RequirementLimit = {
    limit,
    columns,
    value: unit.value,
    stay_s: stay,
    band_Hz: band,
    side,
    unit: writtenUnitOf(bound),
    per_unit: unit.per_unit,
  };
  return { requirement: { ...words, judged }, cells, row: { unit: unit.rowUnit, text: unit.text } };
}

type Refuse = (column: RequirementColumn, words: Unread) => null;

function pathOf({ clause }: RequirementCells, column: string): string {
  return clause.text === '' ? column : `clause ${clause.text}, ${column}`;
}

function isWritten(read: WrittenUnit | Unread): read is WrittenUnit {
  return !Array.isArray(read);
}

function writtenUnitOf(bound: ReturnType<typeof readBound>): string {
  return isUnread(bound) ? '' : bound.unit;
}

function wordsOf(cells: RequirementCells): Omit<Requirement, 'judged' | 'shown_by'> {
  const { clause, requirement, metric, bound, unit, stay, band, applies, source } = cells;
  return {
    clause: clause.text,
    words: requirement.text,
    metric: metric.text,
    bound: [
      // A plain number needs no word for its unit where people read it.
      plainUnits.includes(unit.text) ? bound.text : `${bound.text} ${unit.text}`,
      stay.text === '' ? '' : `for more than ${stay.text}`,
      band.text === '' ? '' : `from ${band.text}`,
    ]
      .filter((word) => word !== '')
      .join(', '),
    applies: applies.text,
    source: source.text,
    file: clause.origin.file,
    line: clause.origin.line,
  };
}

function unknownMetric(cells: RequirementCells, near: string | undefined): Problem {
  return problemAt(
    cells.metric.origin,
    pathOf(cells, 'metric'),
    `${cells.metric.text}, which Buswake does not judge: this requirement is open`,
    'a quantity that it judges, or nothing',
    near === undefined
      ? 'buswake explain limits names them all; or leave the cell empty'
      : `did you mean ${near}?`,
    'warning',
  );
}

function shownOutside(name: string, near: string | undefined): string {
  const what = name === '' ? 'no metric is named' : `${name} is no quantity that Buswake judges`;
  return near === undefined
    ? `${what}: a test, or a calculation outside of it`
    : `${what}; perhaps ${near} was meant`;
}

function readStay({ stay }: RequirementCells, quantity: LimitQuantity, refuse: Refuse): number | null {
  const wanted = quantity.stay;
  if (stay.text === '') {
    if (wanted === null || wanted === 'optional') return null;
    const length = wanted === 'required' ? '20 ms; 0 s: not at all' : `${wanted} s`;
    return refuse('stay', ['nothing', `how long at most, for example ${length}`, 'fill the cell']);
  }
  if (wanted === null)
    return refuse('stay', [stay.text, 'nothing: the metric has no stay', 'leave the cell empty']);
  const read = readQuantity(stay.text, 'time');
  if (!read.ok) return refuse('stay', [read.found, read.expected, read.mend]);
  if (read.value < 0 || (wanted === 'optional' && read.value === 0))
    return refuse('stay', [stay.text, 'a length of time', 'leave the cell empty where any moment counts']);
  if (typeof wanted === 'number' && read.value !== wanted)
    return refuse('stay', [stay.text, `${wanted} s, the one length that is read`, `write ${wanted} s`]);
  return read.value;
}

function readBand(
  { band }: RequirementCells,
  { band_to_Hz }: LimitQuantity,
  refuse: Refuse,
): readonly [number, number] | null {
  const example = 'a band, for example 0.5 Hz to 3 Hz';
  if (band_to_Hz === null)
    return band.text === ''
      ? null
      : refuse('band', [band.text, 'nothing: the metric has no band', 'leave the cell empty']);
  if (band.text === '') return refuse('band', ['nothing', example, 'fill the cell']);
  const ends = band.text.split(/\s+to\s+/).map((word) => readQuantity(word, 'frequency'));
  const [low, high] = ends;
  if (
    ends.length !== 2 ||
    low?.ok !== true ||
    high?.ok !== true ||
    !(0 < low.value && low.value < high.value)
  )
    return refuse('band', [band.text, example, 'write the lower end first, each with its unit']);
  if (high.value > band_to_Hz)
    return refuse('band', [
      band.text,
      `a band up to ${band_to_Hz} Hz: what is faster is not seen, and would pass unseen`,
      'end the band there, or leave the metric empty: the row is then open',
    ]);
  return [low.value, high.value];
}

function readApplies({ applies }: RequirementCells, metric: string, refuse: Refuse): LimitColumn[] | null {
  const words = applies.text.split(/\s*(?:,|;|\+|\band\b)\s*/);
  const known = [...limitColumns, 'all'];
  if (applies.text === '' || words.some((word) => !known.includes(word)))
    return refuse('applies', [
      applies.text === '' ? 'nothing' : applies.text,
      `${listed(known)}, several of them parted by semicolons`,
      'normal: everything in order; degraded: in an outage; carry: while batteries carry the bus',
    ]);
  const columns = limitColumns.filter((column) => words.includes('all') || words.includes(column));
  // What is no stay of the bus is judged over the whole run: by itself it is not shown while batteries carry.
  if (metric === busStay || !columns.includes('carry')) return columns;
  return refuse('applies', [
    applies.text,
    `normal, degraded or both: ${metric} is judged over a whole run, and not apart while batteries carry`,
    'write normal; degraded, and give what is asked while batteries carry a line of its own without a metric: it stays open',
  ]);
}
