/** The quantity that a name says: by its unit, or by its last word. A column has such a name, and so has a label of rows. */
import { isPowerFactor, wordsOf } from './column-names.ts';
import { type Quantity, statedUnit } from './stated-unit.ts';

export interface NamedQuantity {
  readonly of: Quantity;
  /** How the name says it, in words that follow the name. */
  readonly by: string;
}

/** Words that end a name of what is no power. */
const others: Readonly<Record<string, string>> = {
  temperature: 'a temperature',
  temp: 'a temperature',
  celsius: 'a temperature',
  energy: 'an energy',
  joules: 'an energy',
  frequency: 'a frequency',
  freq: 'a frequency',
  clock: 'a frequency',
  speed: 'a speed',
  rpm: 'a speed',
  utilization: 'a share',
  utilisation: 'a share',
  util: 'a share',
  percent: 'a share',
  humidity: 'a humidity',
  pressure: 'a pressure',
  flow: 'a flow',
};

/** null where it says none that is known. */
export function namedQuantity(name: string): NamedQuantity | null {
  const words = wordsOf(name);
  const unreal = words.find((word) => word === 'apparent' || word === 'reactive');
  if (unreal !== undefined)
    return { of: 'something else', by: `${unreal === 'apparent' ? 'an' : 'a'} ${unreal} power by its name` };
  if (isPowerFactor(name)) return { of: 'something else', by: 'a power factor by its name' };
  const stated = statedUnit(name);
  if (stated !== null) return { of: stated.of, by: `in ${stated.unit} by its name` };
  const last = words.filter((word) => !/^\d+$/.test(word)).at(-1) ?? '';
  if (last === 'power' || last === 'watts') return { of: 'power', by: 'a power by its name' };
  if (last === 'current' || last === 'amps') return { of: 'current', by: 'a current by its name' };
  if (last === 'voltage' || last === 'volts') return { of: 'voltage', by: 'a voltage by its name' };
  return Object.hasOwn(others, last) ? { of: 'something else', by: `${others[last]!} by its name` } : null;
}
