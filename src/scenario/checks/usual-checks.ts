/** Warns of numbers that are legal but unusual for what stands on a bus of this nominal voltage. */
import { formatQuantity } from '../../base/quantity.ts';
import { busFactor } from '../derived/on-bus.ts';
import { asWritten, type Cell, type Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

/** What is usual on a bus of that voltage; null where nothing is said of it. */
function usualOn({ field }: Cell, nominal_V: number): readonly [low: number, high: number] | null {
  if (field.kind !== 'quantity' || field.spec.bus === undefined || field.spec.usual === undefined)
    return null;
  const factor = busFactor(field.spec, nominal_V);
  const [low, high] = field.spec.usual;
  return [low * factor, high * factor];
}

export function isUnusual(cell: Cell, nominal_V: number): boolean {
  const usual = usualOn(cell, nominal_V);
  const value = asWritten(cell);
  return usual !== null && typeof value === 'number' && (value < usual[0] || value > usual[1]);
}

export function warnOfUnusual(sheet: Sheet): void {
  const nominal_V = sheet.number('nominal');
  if (!(nominal_V > 0)) return;
  const said = new Set<string>();
  for (const [path, cell] of sheet.cells) {
    const { field, origin } = cell;
    const usual = usualOn(cell, nominal_V);
    const value = asWritten(cell);
    if (usual === null || field.kind !== 'quantity' || !isUnusual(cell, nominal_V)) continue;
    const [low, high] = usual;
    const { dimension, means } = field.spec;
    // All units of one model: once is enough.
    const once = JSON.stringify([origin ?? path, means, value]);
    if (said.has(once)) continue;
    said.add(once);
    const show = (x: number): string => formatQuantity(x, dimension);
    const expected = `usually ${show(low)} to ${show(high)} on a bus of ${formatQuantity(nominal_V, 'voltage')} (${means})`;
    sheet.problems.push(
      problemAt(origin, path, show(value as number), expected, 'keep it if it is meant', 'warning'),
    );
  }
}
