/** A current that is early or late against the voltage that it lowers: their product is the power of no moment. */
import { apart } from './apart.ts';
import type { Sampled, Sign } from './sign.ts';
import { together } from './together.ts';

export function lateBeside(voltages: readonly Sampled[], currents: readonly Sampled[]): Sign[] {
  return voltages.flatMap((voltage) => {
    const falls = { ...voltage, values: voltage.values.map((value) => -value) };
    return currents.flatMap((current) => {
      const pair = [falls, current];
      const both = together(pair);
      const found = both === null ? [] : apart(pair, both);
      return found.map((sign) => ({
        ...sign,
        asks: 'are their clocks apart, does the bus follow its current so late, or is each of a place of its own?',
      }));
    });
  });
}
