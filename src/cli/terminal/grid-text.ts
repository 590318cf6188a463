/** The AC side in the grid's words, a line or two: the feeder that moves its voltage most. */

import type { Grid, GridFeeder, Report } from '../../analysis/judge/report.ts';
import { numberText } from '../../analysis/words/number-text.ts';
import { wrap } from './columns.ts';

const label = 'grid    ';

export function gridText({ grid, findings }: Pick<Report, 'grid' | 'findings'>, width: number): string[] {
  const feeder = [...grid.feeders].sort((a, b) => (b.change_max_ratio ?? -1) - (a.change_max_ratio ?? -1))[0];
  if (feeder === undefined || feeder.power_mean_W === null) return [];
  const share = findings.find((f) => f.id === 'ac-energy-share')?.value ?? null;
  const parts = [
    `${named(grid, feeder)}: ${number(feeder.power_mean_W, 'W')} and ${number(feeder.current_mean_A, 'A')} a cabinet on ${number(feeder.short_circuit_power_VA, 'VA')}`,
    `voltage lower by ${number(feeder.fall_mean_ratio, 'ratio')}, moving by ${number(feeder.change_max_ratio, 'ratio')} at most and ${number(feeder.change_steady_ratio, 'ratio')} steady`,
    flicker(feeder),
    sideBands(feeder),
    share === null ? null : `${number(share, 'ratio')} of the swing's energy from 0.1 to 20 Hz`,
  ];
  return wrap(`${label}${parts.filter((part) => part !== null).join('; ')}`, width, ' '.repeat(10));
}

function named({ cabinets_count, coincidence }: Grid, { feeder }: GridFeeder): string {
  if (cabinets_count === 1) return feeder;
  return `${feeder} with ${cabinets_count} cabinets (${coincidence === 'together' ? 'swinging together' : 'independent'})`;
}

function flicker({ pst, pst_of, pst_over_s, plt }: GridFeeder): string | null {
  if (pst === null) return 'flicker not known (no ten minutes, no cycle)';
  const value = Number(pst.toPrecision(3));
  if (pst_of === 'repeated cycle') {
    return `Pst ${value}, an estimate from ${number(pst_over_s, 's')} repeated`;
  }
  return plt === null ? `Pst ${value}` : `Pst ${value}, Plt ${Number(plt.toPrecision(3))}`;
}

/** Everything beside the fundamental's subgroup, as far as the power's envelope shows it. */
function sideBands({ groups }: GridFeeder): string | null {
  const fundamental = groups?.rows[1]?.subgroup_A ?? 0;
  if (groups === null || !(fundamental > 0)) return null;
  const most = Math.max(...groups.rows.map(({ between_A }) => between_A));
  return `side bands of the line current ${number(most / fundamental, 'ratio')}`;
}

function number(value: number | null, unit: string): string {
  return value === null ? 'none' : numberText(value, unit);
}
