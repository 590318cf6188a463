/**
 * Values that differ from the files, and code of the user's own. A change of the cabinet or its load is the design
 * under judgement and conditions nothing. A change of what the verdict is measured by (rated power, ratings of parts,
 * the supply it is connected to, the time left out, the step) is a condition: the same design may fail by the
 * yardstick of the files. What is set to what stands there already changes nothing.
 */

import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, writtenBy } from './entry.ts';

const yardsticks: ReadonlySet<string> = new Set([
  'nominal',
  'rated',
  'outage',
  'warm_up',
  'start',
  'step',
  'tick',
  'coincidence',
  'cabinets_on_feeder',
]);

/**
 * Ratings, and what decides whether a part has one: cooling of joints, time in which a part warms up; plug contacts, which no
 * limit judges; and the supply outside of the cabinet, by which a swing of its power is judged as one of the voltage.
 */
const yardstickKeys =
  /(^|\.)(rated_\w+|\w+_rating|breaker_current|short_circuit_power|reactance_ratio|peak_power|\w*thermal_resistance|thermal_time|contact\.resistance)$/;

export function changedBasis(scenario: Stated): BasisEntry[] {
  const replaced =
    scenario.load.kind === 'recorded' && scenario.origins.get('load.file')?.line === 0
      ? [entry('changed', `${scenario.load.file} in place of the load of ${scenario.id}`, { by: '--load' })]
      : [];
  const altered = scenario.alterations
    .filter(({ path }) => !path.startsWith('limits.'))
    .map(({ path, from, to, by, makes }) =>
      // An option of its own is a choice; --set and the files write over what is stated elsewhere.
      entry(
        by.startsWith('--') && by !== '--set' ? 'chosen' : 'changed',
        `${path} ${from === null ? '' : `${from} `}→ ${to}${makes === undefined ? '' : ` (${makes})`}`,
        {
          by,
          conditions: from !== to && (yardsticks.has(path) || yardstickKeys.test(path)),
        },
      ),
    );
  const controllers = scenario.controllers.map(({ replaces, file, sha256 }) =>
    entry('changed', `${replaces} of ${file} in place of the law as built`, {
      by: writtenBy(scenario, 'controllers') ?? scenario.id,
      reason: `SHA-256 ${sha256.slice(0, 16)}…`,
    }),
  );
  return [...replaced, ...altered, ...controllers];
}
