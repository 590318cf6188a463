import { BadInput, type Problem } from '../../base/problem.ts';
import { type Dimension, formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { asWritten, modelNoteOf } from '../../scenario/sheet.ts';
import { nearestOr } from '../../scenario/text/nearest.ts';
import { refuseOverlaps } from '../written/overlap.ts';
import { inKind } from '../written/values.ts';

/** A parameter that a fit may change, within its range. */
export interface Adjusted {
  readonly path: string;
  readonly dimension: Dimension;
  readonly start: number;
  readonly low: number;
  readonly high: number;
  /** Values lie on whole multiples of this: a tick of the run, a count of one; null: anywhere. */
  readonly grid: number | null;
}

type Range = Pick<Adjusted, 'low' | 'high'>;

/** The value on its grid, and within its range. */
export function onGrid({ low, high, grid }: Adjusted, value: number): number {
  if (grid === null) return value;
  const [first, last] = [Math.ceil(low / grid - 1e-9), Math.floor(high / grid + 1e-9)];
  // Twelve digits: a whole number of ticks as a decimal time.
  return Number((Math.min(last, Math.max(first, Math.round(value / grid))) * grid).toPrecision(12));
}

/**
 * Parameters by path, or `path = low to high`. Without a range it is the model's own low and high. A path that
 * stands for all units of a kind starts at their mean and gives all the same value. Throws BadInput.
 */
export function adjustedOf(words: readonly string[], read: ReadScenario): Adjusted[] {
  const problems: Problem[] = [];
  const adjusted = words.flatMap((word) => {
    const found = oneOf(word, read);
    if ('found' in found) problems.push(found);
    else return [found];
    return [];
  });
  if (words.length === 0) {
    const mend = 'give --adjust PATH or --adjust "PATH = LOW to HIGH", repeatable';
    problems.push({
      severity: 'error',
      found: 'nothing to adjust',
      expected: 'at least one parameter',
      mend,
    });
  }
  if (problems.length > 0) throw new BadInput(problems);
  refuseOverlaps(
    adjusted.map(({ path }) => path),
    read.cells,
    '--adjust',
  );
  return adjusted;
}

/** One parameter as written; `usual`: what its range is where neither it nor the model states one. */
export function oneOf(
  word: string,
  { cells, paths, scenario }: ReadScenario,
  usual: (start: number) => Range | null = () => null,
): Adjusted | Problem {
  const cut = word.indexOf('=');
  const path = (cut < 0 ? word : word.slice(0, cut)).trim();
  const refuse = (found: string, expected: string, mend: string): Problem => {
    return { severity: 'error', path, found, expected, mend };
  };
  const keys = [...cells.keys()].filter((key) => key === path || inKind(key, path));
  const field = keys.length === 0 ? undefined : cells.get(keys[0]!)!.field;
  const values = keys.map((key) => asWritten(cells.get(key)!)).filter((value) => typeof value === 'number');
  if (field?.kind !== 'quantity' || values.length === 0) {
    const mend = nearestOr('the command check --paths lists them all', path, paths);
    return refuse(`path ${path}`, 'a number of the scenario', mend);
  }
  const { dimension } = field.spec;
  const start = values.reduce((sum, value) => sum + value, 0) / values.length;
  const range = cut < 0 ? (fromModel(keys, cells) ?? usual(start)) : written(word.slice(cut + 1), dimension);
  if (range === null) {
    return refuse(
      cut < 0 ? 'a parameter whose model states no range' : word.slice(cut + 1).trim(),
      'a range from low to high',
      `give --adjust "${path} = ${exampleRange(start, dimension)}"`,
    );
  }
  if (!(range.low < range.high && range.low <= start && start <= range.high)) {
    const text = `${formatQuantity(range.low, dimension)} to ${formatQuantity(range.high, dimension)}`;
    return refuse(
      text,
      `a range that holds the present value, ${formatQuantity(start, dimension)}`,
      'widen it',
    );
  }
  const grid = field.spec.ticks === true ? scenario.tick_s : dimension === 'count' ? 1 : null;
  return { path, dimension, start, ...range, grid };
}

/** A range about a value, as it may be typed: from half to twice, in whole numbers for counts. */
function exampleRange(value: number, dimension: Dimension): string {
  if (value === 0) return 'LOW to HIGH';
  const [low, high] = value > 0 ? [0.5 * value, 2 * value] : [2 * value, 0.5 * value];
  const [from, to] = dimension === 'count' ? [Math.floor(low), Math.ceil(high)] : [low, high];
  return `${formatQuantity(from, dimension, 3)} to ${formatQuantity(to, dimension, 3)}`;
}

/** The corners that the models state, also where a change has written over their value. */
function fromModel(keys: readonly string[], cells: ReadScenario['cells']): Range | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const key of keys) {
    const cell = cells.get(key);
    const note = cell === undefined ? null : modelNoteOf(cell);
    if (note === null || note.low === null || note.high === null) return null;
    low = Math.min(low, note.low);
    high = Math.max(high, note.high);
  }
  return { low, high };
}

function written(text: string, dimension: Dimension): Range | null {
  const [low, high, more] = text.split(/\.\.|\bto\b/).map((part) => readQuantity(part.trim(), dimension));
  if (low?.ok !== true || high?.ok !== true || more !== undefined) return null;
  return { low: low.value, high: high.value };
}
