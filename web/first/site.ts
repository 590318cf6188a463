/** Where something binds, in words: its node, or the part of the cabinet that is read of no single unit. */
import type { Bundle } from '../../src/bundle/format.ts';
import type { Binding } from '../binding.ts';
import { type Place, placeOf } from '../places.ts';

const sites: Readonly<Partial<{ [P in Place]: string }>> = {
  'panel-ac': 'AC input',
  'panel-ramps': 'AC input',
  grid: 'point of connection',
};

/** null where it has no place of its own. */
export function siteOf({ finding, where }: Binding, { scenario }: Pick<Bundle, 'scenario'>): string | null {
  return where ?? (finding === null ? null : (sites[placeOf(finding, scenario)] ?? null));
}
