/** A random load: what is judged is one draw of it, and another may come out otherwise. Always a condition. */
import { drawnBy } from '../../loads/drawn-by.ts';
import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../stated.ts';
import { entry, writtenBy } from './entry.ts';

export function drawBasis(scenario: Stated): BasisEntry[] {
  const drawn = drawnBy(scenario.load);
  if (drawn === null) return [];
  return [
    entry('assumed', `${drawn} is random: one draw of it was run, seed ${scenario.seed}`, {
      by: writtenBy(scenario, 'seed'),
      reason: 'spread draws others (seed: uniform from 1 to 100000)',
      conditions: true,
    }),
  ];
}
