import type { Trial } from '../trials/trial.ts';
import type { SpreadReport } from './report.ts';

/** What a sample was run with: the scenario as the study changes it, and the values drawn. `sample`: from 1. */
export function sampleTrial(
  { base, drawn }: Pick<SpreadReport, 'base' | 'drawn'>,
  sample: number,
): Trial<'run'> {
  const { scenario, changes } = base;
  const own = drawn.map(({ path, values }) => ({ path, value: values[sample - 1]! }));
  return { kind: 'run', scenario, changes: [...changes, ...own] };
}
