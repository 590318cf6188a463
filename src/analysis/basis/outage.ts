/**
 * An outage that the scenario states makes the wider column of the limits apply. The record must show one: a unit, bar
 * or bank out or shorted, a module out, AC lost, or a bar that is open from the start. Where it shows none, or only a
 * sled that is off, which is load and no reserve, a whole cabinet was judged by the wider column: a condition.
 */
import type { Result } from '../../engine/result.ts';
import type { RecordedSpan } from '../../events/spans.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { BasisEntry } from '../basis.ts';
import { namedFew } from '../named-few.ts';
import { entry, writtenBy } from './entry.ts';

const most = 3;

export function outageBasis(scenario: Scenario, { spans }: Pick<Result, 'spans'>): BasisEntry[] {
  if (!scenario.outage) return [];
  const by = writtenBy(scenario, 'outage');
  const sleds = new Set(scenario.sleds.map(({ id }) => id));
  const out = [...openBars(scenario), ...spans.filter((span) => isOut(span, sleds)).map(({ who }) => who)];
  if (out.length > 0) {
    const what = `an outage is stated (${namedFew([...new Set(out)], most)} out): the degraded column applies`;
    return [entry('chosen', what, { by })];
  }
  return [
    entry('assumed', 'an outage is stated and nothing was out', {
      by,
      reason: 'the degraded column judged a whole cabinet',
      conditions: true,
    }),
  ];
}

function isOut({ kind, who, what }: RecordedSpan, sleds: ReadonlySet<string>): boolean {
  if (kind === 'short' || kind === 'ac-lost') return true;
  return kind === 'out' ? !sleds.has(who) : kind === 'altered' && what === 'module-out';
}

function openBars({ bars: { tie, links } }: Scenario): string[] {
  const bars = tie === null ? links : [tie, ...links];
  return bars.filter(({ closed }) => !closed).map(({ id }) => id);
}
