/** Where every joule went: input, load, losses by device and cause, change of what is stored. */

import type { Report } from '../../analysis/judge/report.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { alignColumns } from './columns.ts';

const titles = { input: 'in', load: 'load', loss: 'lost', stored: 'stored' } as const;

/** Rows below this share of the input are summed up in one line. */
const smallest = 1e-6;

/** Largest first inside each kind; shares are of the AC input. */
export function energyTable(report: Report): string {
  const { rows, input_J } = report.energy;
  const whole = input_J === null || input_J === 0 ? null : input_J;
  const share = (joules: number): string =>
    whole === null ? '' : `${((100 * joules) / whole).toFixed(4)} %`;
  const cells: string[][] = [['where the energy went', '', 'energy', 'of input']];
  for (const kind of ['input', 'load', 'loss', 'stored'] as const) {
    const ofKind = rows.filter((row) => row.kind === kind);
    const least = smallest * Math.abs(whole ?? 0);
    const shown = ofKind.filter((row) => Math.abs(row.energy_J) >= least);
    const rest = ofKind.filter((row) => Math.abs(row.energy_J) < least);
    shown.sort((a, b) => Math.abs(b.energy_J) - Math.abs(a.energy_J));
    for (const { owner, cause, energy_J } of shown) {
      cells.push([titles[kind], `${owner}, ${cause}`, numberText(energy_J, 'J'), share(energy_J)]);
    }
    const sum = rest.reduce((total, row) => total + row.energy_J, 0);
    if (rest.length > 0)
      cells.push([titles[kind], `${rest.length} smaller ones`, numberText(sum, 'J'), share(sum)]);
  }
  return alignColumns(cells, new Set([2, 3]))
    .map((row) => row.join('  ').trimEnd())
    .join('\n');
}
