import { formatQuantity } from '../../base/quantity.ts';
import type { Change } from '../../scenario/scenario.ts';
import { type Adjusted, onGrid } from './adjusted.ts';
import type { Confidence } from './confidence.ts';
import type { FitResult } from './fit-report.ts';
import type { Profile } from './profile.ts';

/** The change that gives a parameter a value, from 0 to 1 over its range. */
export function changeOf(parameter: Adjusted, value: number): Change {
  const { path, dimension, low, high } = parameter;
  return { path, value: formatQuantity(onGrid(parameter, low + value * (high - low)), dimension) };
}

/** What was found of a parameter, in its unit. */
export function resultOf(
  parameter: Adjusted,
  found: number,
  sure: Confidence | null,
  j: number,
  profile: Profile | null,
): FitResult {
  const { low, high, start, dimension } = parameter;
  const value = onGrid(parameter, low + found * (high - low));
  const inUnit = (place: number): number => low + place * (high - low);
  const half = sure?.halfWidths[j] ?? null;
  const wide = half === null ? null : half * (high - low);
  return {
    value,
    interval: profile === null ? null : [inUnit(profile.ends[0]), inUnit(profile.ends[1])],
    linear_interval: wide === null ? null : [value - wide, value + wide],
    profile: (profile?.points ?? []).map(({ moved, t }) => ({ value: inUnit(found + moved), t })),
    unit: formatQuantity(1, dimension).replace(/^[\d.]+\s*/, ''),
    dimension,
    start,
    range: [low, high],
    at_end: found <= 0 || found >= 1,
  };
}
