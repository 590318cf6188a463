/** How the shelves share in each case. */
import type { SharePlan } from './plan.ts';
import type { Sharing } from './watch.ts';

export interface ShareReport {
  readonly schema_version: number;
  readonly scenario: string;
  readonly load_W: number;
  readonly cases: readonly (Sharing & { readonly name: string })[];
}

export function shareReport({ scenario, load_W, cases }: SharePlan, found: readonly Sharing[]): ShareReport {
  return {
    schema_version: 1,
    scenario: scenario.id,
    load_W,
    cases: cases.map(({ name }, k) => ({ name, ...found[k]! })),
  };
}
