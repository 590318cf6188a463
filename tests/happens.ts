/** An event as the scenario holds it, for tests that build their own. */
import type { EventSpec } from '../src/scenario/scenario.ts';

export function happens(at_s: number, what: EventSpec['what'], unit: string): EventSpec {
  return { at_s, what, unit, amount: null, for_s: null, over_s: null };
}
