/**
 * Values of one path in order: `6 to 14`, `0.8 to 1.2 by 0.05`, `100 F to 200 F in 6`, or a list with bars
 * between, `A after T5 | A after S1`. Numbers ascend: of a search the first that passes is the least, and a row that descends
 * would give the most for it.
 */
import { BadInput, type Problem } from '../../base/problem.ts';
import { type Dimension, formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { Cell } from '../../scenario/sheet.ts';

/** Most values that one path may take in a search. */
const most = 1000;

/** For what the values are tried: a search takes the first that passes. */
export type TriedFor = 'search' | 'all';

/** `dimension`: of the path's value; null where values are words. Throws BadInput. */
export function valuesOf(
  path: string,
  text: string,
  dimension: Dimension | null,
  triedFor: TriedFor = 'all',
): readonly string[] {
  const list = text.split('|').map((word) => word.trim());
  if (list.length > 1) {
    if (list.some((word) => word === '')) return refuse(path, text, 'an empty value');
    if (dimension !== null) ascending(path, text, list, dimension, triedFor);
    return list;
  }
  const range = /^(.+?)\s*(?:\.\.|\bto\b)\s*(.+?)(?:\s+(by|in)\s+(.+))?$/.exec(text.trim());
  if (range === null || dimension === null)
    return text.trim() === '' ? refuse(path, text, 'nothing') : [text.trim()];
  const [, first = '', last = '', how, step = ''] = range;
  const from = number(path, first, dimension);
  const to = number(path, last, dimension);
  if (from > to)
    refuseDescent(
      path,
      text,
      [last, first].join(' to ') + (how === undefined ? '' : ` ${how} ${step}`),
      triedFor,
    );
  const counted = dimension === 'count';
  if (how === undefined && !counted) {
    return refuse(path, text, 'a range without steps', `${text} by …, or ${text} in 9`);
  }
  const span = to - from;
  const by = how === 'by' ? number(path, step, dimension) : 1;
  const steps = how === 'in' ? number(path, step, 'count') - 1 : Math.floor(span / by + 1e-9);
  if (!(steps >= 0) || steps >= most) return refuse(path, text, `${steps + 1} values`, `1 to ${most} values`);
  const each = how !== 'in' ? by : steps === 0 ? 0 : span / steps;
  return Array.from({ length: steps + 1 }, (_, k) => {
    const isEnd = k === 0 || k === steps;
    return formatQuantity(
      how === 'in' && !isEnd ? near(from + k * each, each) : plain(from + k * each),
      dimension,
    );
  });
}

/** Twelve digits: sums of decimal steps come out as people would write them. */
function plain(value: number): number {
  return Number(value.toPrecision(12));
}

/** To a hundredth of the step or finer: 166.7 of a step of 66.67, as people would write it. */
function near(value: number, step: number): number {
  if (!(step > 0)) return plain(value);
  const digits = 2 - Math.floor(Math.log10(step));
  if (digits >= 0) return digits > 15 ? plain(value) : Number(value.toFixed(digits));
  const whole = 10 ** -digits;
  return Math.round(value / whole) * whole;
}

/** Of a path: its dimension, or null where its values are words. Counts of units have no cell of their own. */
export function dimensionOf(path: string, cells: ReadonlyMap<string, Cell>): Dimension | null {
  if (path.endsWith('.count')) return 'count';
  const cell = cells.get(path) ?? [...cells].find(([key]) => inKind(key, path))?.[1];
  return cell?.field.kind === 'quantity' ? cell.field.spec.dimension : null;
}

/** A time that the run counts in whole ticks. */
export function isCountedInTicks(path: string, cells: ReadonlyMap<string, Cell>): boolean {
  const cell = cells.get(path) ?? [...cells].find(([key]) => inKind(key, path))?.[1];
  return cell?.field.kind === 'quantity' && cell.field.spec.ticks === true;
}

/** `trays.capacitance` stands for `trays.T1.capacitance` and so on; `bars.links.resistance` likewise. */
export function inKind(cell: string, path: string): boolean {
  const cut = path.lastIndexOf('.');
  const [head, tail] = [path.slice(0, cut + 1), path.slice(cut)];
  return (
    cell.startsWith(head) &&
    cell.endsWith(tail) &&
    !cell.slice(head.length, -tail.length).includes('.') &&
    cell !== path
  );
}

function ascending(
  path: string,
  text: string,
  list: readonly string[],
  dimension: Dimension,
  triedFor: TriedFor,
): void {
  const values = list.map((word) => ({ word, value: number(path, word, dimension) }));
  if (values.every(({ value }, k) => k === 0 || value > values[k - 1]!.value)) return;
  const sorted = [...values].sort((a, b) => a.value - b.value);
  const once = sorted.filter(({ value }, k) => k === 0 || value > sorted[k - 1]!.value);
  refuseDescent(path, text, once.map(({ word }) => word).join(' | '), triedFor);
}

export function refuseDescent(path: string, text: string, ascending: string, triedFor: TriedFor): never {
  const isSearch = triedFor === 'search';
  const largest =
    isSearch && !path.endsWith('.count')
      ? `; for the largest that passes, use buswake rating with --scale ${path}`
      : '';
  throw new BadInput([
    problem(
      path,
      `values that do not ascend: ${text}`,
      `values from the least to the most${isSearch ? ': the first that passes is taken for the least' : ''}`,
      `write ${ascending}${largest}`,
    ),
  ]);
}

function number(path: string, text: string, dimension: Dimension): number {
  const reading = readQuantity(text, dimension);
  if (reading.ok) return reading.value;
  throw new BadInput([problem(path, reading.found, reading.expected, reading.mend)]);
}

function refuse(path: string, text: string, found: string, expected = 'values'): never {
  const mend = 'write 6 to 14, 0.8 to 1.2 by 0.05, 100 F to 200 F in 6, or a | b | c';
  throw new BadInput([problem(path, `${found} in ${text === '' ? 'nothing' : text}`, expected, mend)]);
}

function problem(path: string, found: string, expected: string, mend: string): Problem {
  return { severity: 'error', path, found, expected, mend };
}
