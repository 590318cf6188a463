/** The bus limits that readings are held against: what a dip or a swell is. */
import { scaleOf } from '../limits/absolute.ts';
import { busStay } from '../scenario/limit-quantities.ts';
import type { Scenario } from '../scenario/scenario.ts';
import type { Bound } from './beyond-meter.ts';

/** The usual column, whatever the run calls for; how long a limit lets the voltage stay is not asked. */
export function boundsOf(scenario: Pick<Scenario, 'limits' | 'nominal_V' | 'rated_W'>): Bound[] {
  return scenario.limits.flatMap((row) =>
    row.quantity !== busStay || row.normal === null
      ? []
      : [{ limit: row.id, side: row.side, level_V: row.normal * scaleOf(row, scenario).factor }],
  );
}
