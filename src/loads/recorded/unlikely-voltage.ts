/** Voltages that no bus of direct current in a rack has: millivolts under the name of volts, or those of the mains. */
import { formatQuantity } from '../../base/quantity.ts';

/** Where low voltage ends on direct current [V]: IEC 61140:2016, 4.1, from memory. */
const most_V = 1500;
/** No bus of a rack lies lower: common practice, no source. */
const least_V = 5;
/** Nominal mains of IEC 60038:2009, table 1, and how far they may lie from it. */
const mains_V = [120, 230];
const mains_ratio = 0.1;

/** Sentences on what a voltage column shows. `isAlternating`: it is known to be of the AC side. */
export function unlikelyVoltage(
  name: string,
  { mean_V, highest_V }: { readonly mean_V: number; readonly highest_V: number },
  isAlternating: boolean,
): string[] {
  if (highest_V > most_V && !isAlternating)
    return [
      `${name} reaches ${formatQuantity(highest_V, 'voltage', 4)}, beyond 1500 V, where low voltage ends on direct current: its unit may be another than its name says.`,
    ];
  if (highest_V < least_V)
    return [
      `${name} reaches ${formatQuantity(highest_V, 'voltage', 4)} at most, less than the bus of any rack: its unit may be another than its name says.`,
    ];
  const mains = mains_V.find((nominal) => Math.abs(mean_V / nominal - 1) <= mains_ratio);
  if (mains === undefined || isAlternating) return [];
  return [
    `${name} lies at ${formatQuantity(mean_V, 'voltage', 4)}, as mains of ${mains} V do: on the AC side volts times amperes are an apparent power (--side ac, with a power factor), higher than what was drawn.`,
  ];
}
