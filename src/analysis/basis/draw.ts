/**
 * A load that may come otherwise: a random one, of which one draw is judged, and sleds that are out of step, whose pulses
 * fill each other's gaps. Always a condition.
 */
import { drawnBy } from '../../loads/drawn-by.ts';
import type { BasisEntry } from '../basis.ts';
import type { Stated } from '../record/stated.ts';
import { entry, seconds, writtenBy } from './entry.ts';

export function drawBasis(scenario: Stated): BasisEntry[] {
  return [...spreadBasis(scenario), ...randomBasis(scenario)];
}

function spreadBasis(scenario: Stated): BasisEntry[] {
  const { load } = scenario;
  if (!('spread_s' in load) || !(load.spread_s > 0)) return [];
  return [
    entry('assumed', `the sleds are out of step, spread over ${seconds(load.spread_s)}`, {
      by: writtenBy(scenario, 'load.spread'),
      reason: 'sleds of one job may fall into step, and then swing together',
      conditions: true,
    }),
  ];
}

function randomBasis(scenario: Stated): BasisEntry[] {
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
