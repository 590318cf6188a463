/** The first estimate by hand on a terminal. */
import type { Estimate } from '../../../studies/estimate/estimate.ts';
import { wrap } from '../columns.ts';

const width = 120;

/** Rule, numbers → what it requires, and below it the formula; `faint` paints the formula. */
export function estimateText(
  { lines, energyAlone, most, withSpare }: Estimate,
  faint: (line: string) => string = (line) => line,
): string[] {
  return [
    ...lines.flatMap(({ rule, title, about, formula, numbers, asks }) => [
      ...wrap(
        `  ${String(rule).padStart(2)}  ${title}${about === '' ? '' : ` (${about})`}: ${numbers} → ${asks}`,
        width,
        '      ',
      ),
      ...wrap(faint(`      ${formula}`), width, '      '),
    ]),
    `  Energy alone would require ${energyAlone}; rule ${most?.rule} requires ${most?.trays}; with factors and a spare ${withSpare}.`,
  ];
}
