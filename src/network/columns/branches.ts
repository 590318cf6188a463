import type { Banks } from '../../devices/bank/bank.ts';
import { Branches } from '../../devices/branch/branch.ts';
import type { Trays } from '../../devices/tray/tray.ts';
import { hasSlowBranch, slowBranchOf, type WithSlowBranch } from '../../scenario/derived/slow-branch.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import { column, ids } from './column.ts';

/** One for each tray that states a slow branch. */
export function trayBranchesOf({ trays: units }: Scenario, trays: Trays, offset: number): Branches {
  const { base_F, rise_F_per_V } = trays;
  return branchesOf(units, (k) => trays.place('capacitor_V', k), { base_F, rise_F_per_V }, offset);
}

/** One for each bank that states a slow branch. */
export function bankBranchesOf({ banks: units }: Scenario, banks: Banks, offset: number): Branches {
  const beside = { base_F: banks.capacitance_F, rise_F_per_V: new Float64Array(units.length) };
  return branchesOf(units, (k) => banks.place('voltage_V', k), beside, offset);
}

function branchesOf(
  units: readonly { readonly id: string; readonly values: WithSlowBranch }[],
  placeOf: (k: number) => number,
  beside: { readonly base_F: Float64Array; readonly rise_F_per_V: Float64Array },
  offset: number,
): Branches {
  const hosts = units.flatMap(({ values }, k) => (hasSlowBranch(values) ? [k] : []));
  const fitted = hosts.map((k) => units[k]!);
  return new Branches(
    {
      names: ids(fitted),
      host: Int32Array.from(hosts),
      beside: Int32Array.from(hosts, placeOf),
      ...beside,
      capacitance_F: column(fitted, ({ values }) => slowBranchOf(values).slow_F),
      conductance_S: column(fitted, ({ values }) => slowBranchOf(values).conductance_S),
    },
    offset,
  );
}
