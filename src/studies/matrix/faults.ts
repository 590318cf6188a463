/** One fault of each kind of event that there is: a kind that is added later appears by itself. */

import { eventKinds } from '../../scenario/occurrences.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { EventSpec } from '../../scenario/scenario.ts';
import type { Variant } from '../study-file.ts';

/** What undoes another event: no fault of its own, but the way back from one. */
const wayBack: Readonly<Partial<Record<EventSpec['what'], EventSpec['what']>>> = { 'ac-loss': 'ac-return' };

export interface EveryFault {
  /** When each happens, as written. */
  readonly at: string;
  /** One unit of each kind, from the middle of its row, or each of them. */
  readonly units: 'one' | 'each';
  /** When what has a way back comes back. */
  readonly back: string;
}

export function everyFault(read: ReadScenario, { at, units, back }: EveryFault): readonly Variant[] {
  const returns = new Set(Object.values(wayBack));
  return eventKinds
    .filter((kind) => !returns.has(kind))
    .flatMap((kind) => {
      const able = read.eventUnits[kind];
      const chosen = units === 'each' ? able : chooseOne(able);
      return chosen.map((unit): Variant => {
        const undo = wayBack[kind];
        return {
          name: `${kind} ${unit}`,
          changes: [
            { path: 'events.add', value: `${kind} ${unit} at ${at}` },
            ...(undo === undefined ? [] : [{ path: 'events.add', value: `${undo} ${unit} at ${back}` }]),
            // AC that comes back is no outage of the cabinet; whatever stays away is.
            ...(undo === undefined ? [{ path: 'outage', value: 'yes' }] : []),
          ],
        };
      });
    });
}

/** The unit in the middle of its row; with `all` among them, one alone and all together. */
function chooseOne(units: readonly string[]): readonly string[] {
  const single = units.filter((unit) => unit !== 'all');
  const middle = single[Math.floor((single.length - 1) / 2)];
  return [...(middle === undefined ? [] : [middle]), ...(units.includes('all') ? ['all'] : [])];
}
