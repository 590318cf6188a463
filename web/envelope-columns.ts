/** What the duration envelope compares: the longest stays while no battery carries and while any does, each with its limits. */
import type { Bundle } from '../src/bundle/format.ts';
import type { Stays, StayTable } from '../src/engine/result.ts';
import { duration, withUnit } from './numbers.ts';

/** The longest single stay of any node beyond a level. */
export interface Stay {
  readonly level_V: number;
  readonly longest_s: number;
  readonly node: string;
}

/** Beyond `limit_V` for longer than `stay_s`. */
export interface Forbidden {
  readonly limit_V: number;
  readonly stay_s: number;
  readonly side: 'lower' | 'upper';
}

export interface EnvelopeColumn {
  readonly title: string;
  readonly below: readonly Stay[];
  readonly above: readonly Stay[];
  readonly forbidden: readonly Forbidden[];
}

/** One column, or two where batteries carried for a time. */
export function envelopeColumns(bundle: Bundle): readonly EnvelopeColumn[] {
  const { stays } = bundle.result;
  const column = (title: string, table: StayTable, carry: boolean): EnvelopeColumn => ({
    title,
    below: longest(stays, table, 'below_s').filter(({ level_V }) => level_V <= bundle.scenario.nominal_V),
    above: longest(stays, table, 'above_s').filter(({ level_V }) => level_V >= bundle.scenario.nominal_V),
    forbidden: forbiddenIn(bundle, carry),
  });
  const normal = column('while no battery carries', stays.normal, false);
  return stays.carry_s > 0 ? [normal, column('while batteries carry', stays.carry, true)] : [normal];
}

function longest(stays: Stays, table: StayTable, field: 'below_s' | 'above_s'): readonly Stay[] {
  const levels = stays.levels_V.length;
  return Array.from(stays.levels_V, (level_V, l) => {
    let best: Stay = { level_V, longest_s: 0, node: '' };
    stays.nodes.forEach((node, n) => {
      const own = table[field][n * levels + l]!;
      if (own > best.longest_s) best = { level_V, longest_s: own, node };
    });
    return best;
  }).filter(({ longest_s }) => longest_s > 0);
}

function forbiddenIn({ report, scenario }: Bundle, carry: boolean): readonly Forbidden[] {
  return report.findings.flatMap(({ id, column, limit, verdict }) => {
    const row = scenario.limits.find((one) => one.id === id);
    if (row?.quantity !== 'bus-stay' || limit === null || verdict === 'not_applicable') return [];
    if ((column === 'carry') !== carry) return [];
    return [{ limit_V: limit, stay_s: row.stay_s ?? 0, side: row.side }];
  });
}

/** The lowest level that any node went below, in words. Levels stand apart: the voltage itself lies between it and the next one. */
export function lowestUndershot(below: readonly Stay[]): string {
  const lowest = below[0];
  if (lowest === undefined) return 'No node went below a level that is counted.';
  const { level_V, node, longest_s } = lowest;
  return `Lowest counted level that a node went below: ${withUnit(level_V, 'V')}; ${node} stays below it for ${duration(Number(longest_s.toPrecision(3)))} at the longest.`;
}
