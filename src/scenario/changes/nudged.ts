import type { Scenario } from '../scenario.ts';

/**
 * The same cabinet with the set points of neighbouring shelves moved by half a trim quantum, up and down in turn; `first`
 * says which way the first one goes. Set point and trim together then lie on a grid half a quantum off, the mean stays,
 * and the share brings every shelf back: what is left is that trims round the other way, each by up to a whole quantum.
 * null where trims are not quantised.
 */
export function nudged(scenario: Scenario, first: 'up' | 'down'): Scenario | null {
  const half_V = scenario.firmware.share.trim_quantum_V / 2;
  if (!(half_V > 0) || scenario.shelves.length === 0) return null;
  const shelves = scenario.shelves.map((shelf, k) => {
    const isUp = (k % 2 === 0) === (first === 'up');
    const set_point_V = shelf.values.set_point_V + (isUp ? half_V : -half_V);
    return { ...shelf, values: { ...shelf.values, set_point_V } };
  });
  return { ...scenario, shelves };
}
