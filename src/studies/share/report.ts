/** How the shelves share in each case. */
import { cautionsAt } from '../../analysis/words/cautions.ts';
import type { SharePlan } from './plan.ts';
import type { Sharing } from './watch.ts';

export interface ShareReport {
  readonly schema_version: number;
  /** What nobody may take from it. */
  readonly cautions: readonly string[];
  readonly scenario: string;
  readonly load_W: number;
  readonly cases: readonly (Sharing & { readonly name: string })[];
}

export function shareReport({ scenario, load_W, cases }: SharePlan, found: readonly Sharing[]): ShareReport {
  return {
    schema_version: 1,
    cautions: cautionsAt(scenario.nominal_V),
    scenario: scenario.id,
    load_W,
    cases: cases.map(({ name }, k) => ({ name, ...found[k]! })),
  };
}
