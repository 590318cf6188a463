/**
 * Levers that scale what is there, each unit its own: `trays.power_limit = × 1.1` makes 22 kW of 20 kW and 33 kW of 30 kW,
 * so that kinds stay kinds. They become plain values before anything runs: a trial names what it was run with.
 */
import { BadInput, type Problem } from '../../base/problem.ts';
import { formatQuantity } from '../../base/quantity.ts';
import type { Change } from '../../scenario/scenario.ts';
import { asWritten, type Cell } from '../../scenario/sheet.ts';
import { listed } from '../../scenario/text/nearest.ts';
import type { Variant } from '../written/study-file.ts';
import { inKind } from '../written/values.ts';
import { placed, writtenAt } from '../written/written-at.ts';

type Cells = ReadonlyMap<string, Cell>;

/** Significant digits of a value that was scaled. */
const digits = 6;

/** The factor of `× 1.1`, or null. */
function factorOf(text: string): number | null {
  const match = /^[×x]\s*(\d+(?:\.\d+)?)$/.exec(text.trim());
  return match === null ? null : Number(match[1]);
}

export function isScaled({ changes }: Pick<Variant, 'changes'>): boolean {
  return changes.some(({ value }) => factorOf(value) !== null);
}

/** The changes of a lever with what it scales as values; throws BadInput where that is no number that has a multiple. */
export function scaledLever(changes: readonly Change[], cells: Cells): readonly Change[] {
  return changes.flatMap((change) => {
    const factor = factorOf(change.value);
    return factor === null ? [change] : scaled(change, factor, cells);
  });
}

/** The value that most units come to under the path of all, then those of the others. */
function scaled(change: Change, factor: number, cells: Cells): readonly Change[] {
  const { path } = change;
  const origin = writtenAt(change);
  const own = (at: string, value: string): Change =>
    origin === null ? { path: at, value } : placed({ path: at, value }, { origin, of: 'levers' });
  const texts = new Map(targetsIn(path, cells).map((at) => [at, multiple(cells.get(at)!, factor)]));
  // A path of nothing is refused where changes are read, by what is near it.
  if (texts.size === 0) return [change];
  const values = [...texts.values()];
  const count = (value: string | null): number => values.filter((one) => one === value).length;
  const most = values.reduce((a, b) => (count(b) > count(a) ? b : a));
  if (most === null || values.includes(null)) throw new BadInput([noMultiple(change)]);
  if (cells.has(path)) return [own(path, most)];
  return [own(path, most), ...[...texts].flatMap(([at, value]) => (value === most ? [] : [own(at, value!)]))];
}

function targetsIn(path: string, cells: Cells): readonly string[] {
  return cells.has(path) ? [path] : [...cells.keys()].filter((cell) => inKind(cell, path));
}

function multiple(cell: Cell, factor: number): string | null {
  const value = asWritten(cell);
  const { field } = cell;
  if (field.kind !== 'quantity' || typeof value !== 'number') return null;
  // Degrees Celsius have no zero to count from.
  if (field.spec.dimension === 'temperature') return null;
  return formatQuantity(value * factor, field.spec.dimension, digits);
}

function noMultiple(change: Change): Problem {
  const origin = writtenAt(change);
  return {
    severity: 'error',
    ...(origin === null ? {} : { file: origin.file, line: origin.line, column: origin.column }),
    path: change.path,
    found: `${change.value} of ${change.path}`,
    expected: 'a factor on a number of the scenario that is no temperature',
    mend: 'write the value itself',
  };
}

/** A warning for each change that writes one value over units that differ: kinds are no longer kinds under it. */
export function flattening({ name, changes }: Variant, cells: Cells): readonly Problem[] {
  return changes.flatMap((change): Problem[] => {
    if (factorOf(change.value) !== null || cells.has(change.path)) return [];
    const there = new Set(targetsIn(change.path, cells).map((at) => valueText(cells.get(at)!)));
    if (there.size < 2) return [];
    const origin = writtenAt(change);
    return [
      {
        severity: 'warning',
        ...(origin === null ? {} : { file: origin.file, line: origin.line, column: origin.column }),
        path: `levers.${name}: ${change.path}`,
        found: `${change.value} in place of ${listed([...there])}`,
        expected: 'a lever that leaves kinds of units what they are',
        mend: 'write × and a factor, as × 1.1, to scale each; or keep it if all are to become alike',
      },
    ];
  });
}

function valueText(cell: Cell): string {
  const value = asWritten(cell);
  const { field } = cell;
  return typeof value === 'number' && field.kind === 'quantity'
    ? formatQuantity(value, field.spec.dimension, digits)
    : String(value);
}
