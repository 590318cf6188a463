/** Warns of numbers that are legal but unusual for what stands on a bus of this nominal voltage. */
import { formatQuantity } from '../../base/quantity.ts';
import { busFactor } from '../derived/on-bus.ts';
import { asWritten, type Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

export function warnOfUnusual(sheet: Sheet): void {
  const nominal_V = sheet.number('nominal');
  if (!(nominal_V > 0)) return;
  const said = new Set<string>();
  for (const [path, cell] of sheet.cells) {
    const { field, origin } = cell;
    if (field.kind !== 'quantity' || field.spec.bus === undefined || field.spec.usual === undefined) continue;
    const value = asWritten(cell);
    if (typeof value !== 'number') continue;
    const { dimension, means } = field.spec;
    const [low, high] = field.spec.usual.map((x) => x * busFactor(field.spec, nominal_V)) as [number, number];
    if (value >= low && value <= high) continue;
    // All units of one model: once is enough.
    const once = JSON.stringify([origin ?? path, means, value]);
    if (said.has(once)) continue;
    said.add(once);
    const show = (x: number): string => formatQuantity(x, dimension);
    const expected = `usually ${show(low)} to ${show(high)} on a bus of ${formatQuantity(nominal_V, 'voltage')} (${means})`;
    sheet.problems.push(problemAt(origin, path, show(value), expected, 'keep it if it is meant', 'warning'));
  }
}
