import type { BarValues } from '../scenario/parameters/bar.ts';
import type { Scenario } from '../scenario/scenario.ts';

/** The bar a current's channel belongs to; contacts have no channel. */
export function barOf({ bars }: Pick<Scenario, 'bars'>, owner: string): BarValues {
  const link = bars.links.find(({ id }) => id === owner);
  if (link !== undefined) return link;
  if (bars.tie?.id === owner) return bars.tie;
  return owner.startsWith('rack.') ? bars.rackSegment : bars.segment;
}
