/**
 * An outage that the scenario states makes the wider column of the limits apply. Where the record then shows nothing
 * out, shorted or without AC, a whole cabinet was judged by it: a condition.
 */
import type { Result } from '../../engine/result.ts';
import type { SpanKind } from '../../events/spans.ts';
import type { Scenario } from '../../scenario/scenario.ts';
import type { BasisEntry } from '../basis.ts';
import { namedFew } from '../named-few.ts';
import { entry, writtenBy } from './entry.ts';

const isOut: ReadonlySet<SpanKind> = new Set(['out', 'short', 'ac-lost']);
const most = 3;

export function outageBasis(scenario: Scenario, { spans }: Pick<Result, 'spans'>): BasisEntry[] {
  if (!scenario.outage) return [];
  const by = writtenBy(scenario, 'outage');
  const out = [...new Set(spans.filter(({ kind }) => isOut.has(kind)).map(({ who }) => who))];
  return out.length === 0
    ? [
        entry('assumed', 'an outage is stated and nothing was out', {
          by,
          reason: 'the degraded column judged a whole cabinet',
          conditions: true,
        }),
      ]
    : [
        entry('chosen', `an outage is stated (${namedFew(out, most)} out): the degraded column applies`, {
          by,
        }),
      ];
}
