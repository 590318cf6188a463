/** One value that a change may name, as the page offers it: what it is, what it may be, what it is now. */
import { type Dimension, formatQuantity } from '../../../src/base/quantity.ts';
import { stateKindOf } from '../../../src/scenario/part-states.ts';
import type { ReadScenario } from '../../../src/scenario/read.ts';
import { asWritten, type Cell } from '../../../src/scenario/sheet.ts';
import { inKind } from '../../../src/studies/written/values.ts';
import { type Range, rangeOf } from './range.ts';

export interface Lever {
  /** As `--set` takes it: `trays.capacitance` for all trays, `trays.T4.capacitance` for one. */
  readonly path: string;
  readonly means: string;
  /** The present value as `--set` would write it; '' where units differ, or where nothing is stated. */
  readonly text: string;
  /** Where it is a number: its dimension, its value, and over what a slider leads. */
  readonly quantity: {
    readonly dimension: Dimension;
    readonly value: number;
    readonly range: Range | null;
  } | null;
  /** Where it is one of a few words. */
  readonly words: readonly string[] | null;
}

/** The lever of a path, from the declaration of what stands there; null where a change cannot name it. */
export function leverOf(path: string, read: ReadScenario): Lever | null {
  const cells = read.cells.has(path)
    ? [read.cells.get(path)!]
    : [...read.cells].flatMap(([key, cell]) => (inKind(key, path) ? [cell] : []));
  const [first, ...others] = cells;
  if (first === undefined) return countLever(path, read) ?? wordsLever(path, read);
  const { field } = first;
  const value = asWritten(first);
  const means = field.kind === 'quantity' ? field.spec.means : field.means;
  const same = others.every((other) => Object.is(asWritten(other), value));
  return {
    path,
    means,
    text: same ? textOf(first) : '',
    quantity:
      same && field.kind === 'quantity' && typeof value === 'number'
        ? { dimension: field.spec.dimension, value, range: rangeOf(value, field.spec) }
        : null,
    words: field.kind === 'choice' ? field.of : field.kind === 'flag' ? ['yes', 'no'] : null,
  };
}

/** How many units of a kind are there: `trays.count`, from none to all that the cabinet's fill order names. */
function countLever(path: string, { scenario, fillable }: ReadScenario): Lever | null {
  for (const family of ['shelves', 'trays', 'banks', 'batteries'] as const) {
    const most = fillable[family] ?? 0;
    if (path !== `${family}.count` || most === 0) continue;
    const value = scenario[family].length;
    return {
      path,
      means: `${family} that are there, of ${most} in the order in which they are fitted`,
      text: String(value),
      quantity: { dimension: 'count', value, range: { low: 0, high: most, scale: 'whole' } },
      words: null,
    };
  }
  return null;
}

/** A change that is a sentence, not a value: of what stands where, of age, of what happens. */
function wordsLever(path: string, { paths }: ReadScenario): Lever | null {
  if (!paths.includes(path) && path !== 'events.add' && stateKindOf(path) === null) return null;
  return { path, means: 'written as --set takes it', text: '', quantity: null, words: null };
}

function textOf(cell: Cell): string {
  const { field } = cell;
  const value = asWritten(cell);
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string' || field.kind !== 'quantity') return String(value);
  return formatQuantity(value, field.spec.dimension);
}
