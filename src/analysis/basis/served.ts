/**
 * Load that was asked for and not served: sleds that were off, cut off, throttled or braked spare the cabinet what it is
 * judged for.
 */
import type { BasisEntry } from '../basis.ts';
import type { Case } from '../case.ts';
import { namedFew } from '../named-few.ts';
import { servedRatio } from '../served.ts';
import { entry } from './entry.ts';

/** Less than this is how loads follow the bus, and means that hold an edge. */
const least_ratio = 0.01;
const most = 3;

export function servedBasis(c: Case): BasisEntry[] {
  const served = servedRatio(c);
  if (served === null || served >= 1 - least_ratio) return [];
  const sleds = new Set(c.scenario.sleds.map(({ id }) => id));
  const out = [...new Set(c.result.spans.filter(({ kind }) => kind === 'out').map(({ who }) => who))];
  const dark = out.filter((who) => sleds.has(who));
  const who = dark.length === 0 ? 'sleds held back' : `${namedFew(dark, most)} off`;
  const percent = Number((100 * (1 - served)).toPrecision(3));
  return [
    entry('unserved', `${percent} % of the load asked for was not served (${who})`, {
      reason: 'a load that is not drawn cannot show what the cabinet does under it',
      conditions: true,
    }),
  ];
}
