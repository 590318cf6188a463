import type { Trial } from '../trials/trial.ts';
import type { GainsReport } from './report.ts';

/** The scenario at a point of the map, as a run in time. */
export function pointTrial(
  { base, axes }: Pick<GainsReport, 'base' | 'axes'>,
  { x, y }: { readonly x: number; readonly y: number },
): Trial<'run'> {
  const [a, b] = axes;
  const { scenario, changes } = base;
  const point = [
    { path: a.path, value: a.values[x]! },
    { path: b.path, value: b.values[y]! },
  ];
  return { kind: 'run', scenario, changes: [...changes, ...point] };
}
