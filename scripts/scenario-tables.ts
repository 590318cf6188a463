/** Tables of what a scenario and a limits file may say, from the tables that their readers check against. */
import { readFileSync } from 'node:fs';
import { numberText } from '../src/analysis/words/number-text.ts';
import { formatQuantity } from '../src/base/quantity.ts';
import type { LimitRow } from '../src/scenario/limit-row.ts';
import { eventFields, furtherFields, type OccurrenceKind, occurrences } from '../src/scenario/occurrences.ts';
import { type LoadField, loadKinds, readingFields } from '../src/scenario/sections/load-fields.ts';
import type { FieldSpec } from '../src/scenario/text/field.ts';
import { keyWords } from '../src/schema/key-words.ts';
import { type Key, keys } from '../src/schema/keys.ts';
import { shippedLimits } from '../src/shipped/shipped-limits.ts';
import { fill } from './between-marks.ts';
import { partPage } from './part-catalogue.ts';

type Row = readonly string[];

function table(head: Row, rows: readonly Row[]): string {
  const line = (cells: Row): string => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(head), `|${'---|'.repeat(head.length)}`, ...rows.map(line)].join('\n');
}

function meaning(field: FieldSpec): string {
  const means = field.kind === 'quantity' ? field.spec.means : field.means;
  return field.kind === 'choice' ? `${means}: ${field.of.join(', ')}` : means;
}

/** A value as a file would say it. */
function written(value: NonNullable<LoadField['fallback']>, field: FieldSpec): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string' || field.kind !== 'quantity') return String(value);
  return formatQuantity(value, field.spec.dimension);
}

/** Keys of many kinds, which the page explains once. */
const shared = new Set(['spread', 'scatter']);

/** `key` meaning, and what holds where the file is silent. */
function keyText([key, { field, fallback }]: readonly [string, LoadField]): string {
  if (shared.has(key)) return `\`${key}\``;
  const silent =
    fallback === undefined ? '' : fallback === null ? ' (optional)' : ` (${written(fallback, field)})`;
  return `\`${key}\` ${meaning(field)}${silent}`;
}

export function loadTable(): string {
  const rows = Object.entries(loadKinds).map(([kind, fields]) => [
    `\`${kind}\``,
    Object.entries(fields).map(keyText).join('; '),
  ]);
  return table(['kind', 'keys, in parentheses the value where the file is silent'], rows);
}

export function readingTable(): string {
  const rows = Object.entries(readingFields).map(([key, { field, fallback }]) => [
    `\`${key}\``,
    meaning(field),
    fallback === undefined ? 'required' : fallback === null ? 'from the file' : written(fallback, field),
  ]);
  return table(['key', 'what', 'default'], rows);
}

function eventRow([kind, { means, target, all, amount }]: [
  string,
  (typeof occurrences)[OccurrenceKind],
]): Row {
  const further = [...furtherFields(kind as OccurrenceKind).keys()].filter((key) => !(key in eventFields));
  const amounts = amount === undefined ? '' : `, ${amount.spec.means}`;
  const fields = further.map((key) => `\`${key}\`${key === amount?.word ? amounts : ''}`).join('; ');
  return [`\`${kind}\``, `${target}${all === true ? ' or `all`' : ''}`, fields, means];
}

export function eventTable(): string {
  return table(['what', 'unit', 'further keys', 'means'], Object.entries(occurrences).map(eventRow));
}

function limitText(number: number | null, unit: string): string {
  return number === null ? 'none' : numberText(number, unit);
}

function limitRow({ id, title, quantity, unit, normal, carry, degraded, stay_s }: LimitRow): Row {
  const columns = [normal, carry, degraded].map((number) => limitText(number, unit));
  const stay = stay_s === null ? '' : formatQuantity(stay_s, 'time');
  return [`\`${id}\``, `\`${quantity}\``, title, ...columns, stay];
}

export function limitTable(): string {
  const head = ['id', 'quantity', 'what', 'normal', 'carry', 'degraded', 'stay'];
  return table(head, shippedLimits().map(limitRow));
}

function keyRow(key: Key): Row {
  const { path, means, may_be, usually, where_nothing_is_written } = keyWords(key);
  return [`\`${path}\``, means, may_be, usually ?? '', where_nothing_is_written ?? '(required)'];
}

/** The reference of keys, whole. */
function keyPage(): string {
  const head = ['key', 'what', 'may be', 'usually', 'where nothing is written'];
  const sections = Object.entries(keys).map(
    ([title, list]) => `## ${title}\n\n${table(head, list.map(keyRow))}\n`,
  );
  return `${keyHead}\n${sections.join('\n')}`;
}

const keyHead = `<!-- written by: npm run -s check:numbers, from the tables that the readers check against -->

# Every key

As files and changes name it; \`trays.capacitance\` is the capacitance of every tray, \`trays.T4.capacitance\` that of one. In a
scenario a key of a load stands below \`load:\` without its kind, a key of an event in its event. \`buswake explain KEY\` tells one.
Editors complete and check keys and units by the schemas in \`dist/schemas\`, which the first line of each shipped file names.
`;

/** Documents with a table of this file, each as it is to be. */
export function pagesWithTables(): ReadonlyMap<string, string> {
  const read = (file: string): string => readFileSync(file, 'utf8');
  return new Map([
    [
      'scenarios/README.md',
      fill(fill(read('scenarios/README.md'), 'loads', loadTable()), 'events', eventTable()),
    ],
    ['scenarios/loads/README.md', fill(read('scenarios/loads/README.md'), 'reading', readingTable())],
    ['models/keys.md', keyPage()],
    ['models/parts.md', partPage()],
    ['models/README.md', fill(read('models/README.md'), 'limits', limitTable())],
  ]);
}
