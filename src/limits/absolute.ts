/** Absolute values of limits that are stated over the nominal voltage or the rated power. */
import { BadInput } from '../base/problem.ts';
import { isQuantityName, quantities } from '../scenario/limit-quantities.ts';
import type { LimitRow } from '../scenario/limit-row.ts';
import type { Scenario } from '../scenario/scenario.ts';

export interface Scale {
  readonly factor: number;
  readonly unit: string;
}

/**
 * Factor and unit that make a row's numbers absolute in this scenario. A row whose unit already is the
 * absolute one is taken as it stands: a bus row may be written in volts.
 */
export function scaleOf(row: LimitRow, scenario: Pick<Scenario, 'nominal_V' | 'rated_W'>): Scale {
  if (!isQuantityName(row.quantity)) throw new BadInput([unknownQuantity(row)]);
  const scale = quantities[row.quantity];
  if (scale.share_of === null || row.unit === scale.unit) return { factor: 1, unit: scale.unit };
  return { factor: scenario[scale.share_of], unit: scale.unit };
}

function unknownQuantity(row: LimitRow) {
  return {
    severity: 'error',
    path: `limits.${row.id}.quantity`,
    found: row.quantity,
    expected: 'a quantity that can be judged',
    mend: `write one of ${Object.keys(quantities).join(', ')}`,
  } as const;
}
