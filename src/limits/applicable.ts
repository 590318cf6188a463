/**
 * From the scenario's rows to the limits of one run.
 *
 * Columns: normal by default; degraded where the scenario states an outage and something was out; carry for stays of the bus
 * voltage while any battery shelf carries. While it carries in an outage the wider of the two holds: neither
 * state may make the other's window narrower. A column without a number means: no limit there.
 */

import { busStay } from '../scenario/limit-quantities.ts';
import type { LimitRow } from '../scenario/limit-row.ts';
import type { Scenario } from '../scenario/scenario.ts';
import { scaleOf } from './absolute.ts';
import type { JudgedColumn, Limit } from './limit.ts';

type Ground = Pick<Scenario, 'limits' | 'limits_basis' | 'nominal_V' | 'rated_W'>;

/** The limits that hold while no battery carries: one per row, of the degraded column where it applies. */
export function limitsOf(scenario: Ground, degraded: boolean): Limit[] {
  return scenario.limits.map((row) =>
    degraded
      ? limitAt(row, scenario, 'degraded', row.degraded)
      : limitAt(row, scenario, 'normal', row.normal),
  );
}

/** The bus limits that hold while a battery carries: one per row about stays. */
export function carryLimitsOf(scenario: Ground, degraded: boolean): Limit[] {
  return scenario.limits
    .filter((row) => row.quantity === busStay)
    .map((row) => limitAt(row, scenario, 'carry', carryValue(row, degraded)));
}

function carryValue(row: LimitRow, degraded: boolean): number | null {
  if (row.carry === null || !degraded || row.degraded === null) return row.carry;
  return row.side === 'lower' ? Math.min(row.carry, row.degraded) : Math.max(row.carry, row.degraded);
}

function limitAt(row: LimitRow, scenario: Ground, column: JudgedColumn, value: number | null): Limit {
  const { factor, unit } = scaleOf(row, scenario);
  const { id, title, source, quantity, side, stay_s, band_Hz, needs_Hz } = row;
  const absolute = value === null ? null : value * factor;
  const reportOnly = row.normal === null && row.carry === null && row.degraded === null;
  return {
    id,
    title,
    source,
    quantity,
    side,
    unit,
    column,
    value: absolute,
    removed: value === null ? removedFrom(scenario, id, column) : null,
    stay_s,
    band_Hz,
    needs_Hz,
    reportOnly,
  };
}

function removedFrom({ limits_basis }: Ground, id: string, column: JudgedColumn): string | null {
  const gone = limits_basis.differences.find(
    ({ limit, what, effect }) => limit === id && what === column && effect === 'removed',
  );
  return gone === undefined ? null : `${gone.from}, removed by ${gone.by}`;
}
