/** The current that a protection device carries, as channels of the record and what is made of them. */

import { shelfCurrent } from '../grid/shelf-current.ts';
import type { Stated } from '../record/stated.ts';

export interface GuardedCurrent {
  readonly channels: readonly string[];
  /** From the channels' values, `at` and on, in their order [A]. */
  current_A(values: Float64Array, at: number): number;
}

/**
 * Of shelf, bank and battery shelf its own. Of a sled what the bars bring to its rack node and do not take on (the node's own
 * capacitor is left out), so that the inrush through its contact is in it. Of a feeder P/(√3 V_LL PF), RMS per phase, at nominal
 * line voltage.
 */
export function guardedCurrent(scenario: Stated, unit: string): GuardedCurrent {
  const sled = scenario.sleds.findIndex(({ id }) => id === unit);
  if (sled >= 0) return sledCurrent(scenario, sled + 1);
  const feeder = scenario.feeders.find(({ id }) => id === unit);
  if (feeder === undefined)
    return { channels: [`${unit}.current_A`], current_A: (values, at) => values[at]! };
  const shelves = scenario.shelves.filter((shelf) => shelf.feeder === unit);
  const { powerFactor } = shelfCurrent(scenario, unit);
  const perVolt = 1 / (Math.sqrt(3) * feeder.values.line_voltage_V);
  return {
    channels: shelves.map(({ id }) => `${id}.ac_power_W`),
    current_A: (values, at) => {
      let power_W = 0;
      for (let k = 0; k < shelves.length; k++) power_W += values[at + k]!;
      return power_W === 0 ? 0 : (perVolt * power_W) / powerFactor(power_W);
    },
  };
}

function sledCurrent({ sleds, bars }: Stated, rack: number): GuardedCurrent {
  const terms = [
    ...(rack > 1 ? [{ channel: `rack.${rack - 1}-${rack}.current_A`, sign: 1 }] : []),
    ...(rack < sleds.length ? [{ channel: `rack.${rack}-${rack + 1}.current_A`, sign: -1 }] : []),
    ...bars.links
      .filter((link) => link.rack === rack)
      .map(({ id }) => ({ channel: `${id}.current_A`, sign: 1 })),
  ];
  return {
    channels: terms.map(({ channel }) => channel),
    current_A: (values, at) => {
      let sum = 0;
      for (let k = 0; k < terms.length; k++) sum += terms[k]!.sign * values[at + k]!;
      return sum;
    },
  };
}
