/** Values of one channel in two groups a thousand apart and nothing between: units that change within a file. */
import { formatQuantity } from '../../base/quantity.ts';
import type { Sampled, Sign } from './sign.ts';
import { isThousands } from './thousands.ts';

/** A bin is a quarter of an octave: exponent and first two bits of a binary64 number. */
const bins = 1 << 13;
const bitsBelow = 18;
/** Bins that fit into a decade. */
const decade = 13;
/** Fewer values in a group are accidents. */
const fewest = 10;
/** Zeros beside the lower group, as a share of it, that make it noise. */
const zeros_ratio = 0.05;

export function twoScales({ name, time_s, values, written }: Sampled): Sign[] {
  const cut = emptyDecade(values);
  if (cut === null) return [];
  let [low, high, changes] = [0, 0, 0];
  let [lowest, lowTop, highBottom, highest] = [Number.POSITIVE_INFINITY, 0, Number.POSITIVE_INFINITY, 0];
  let [first, last, wasHigh, none] = [-1, -1, false, 0];
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (size === 0) {
      none++;
      continue;
    }
    const isHigh = size > cut;
    if (low + high > 0 && isHigh !== wasHigh) {
      changes++;
      if (first < 0) first = i;
    }
    wasHigh = isHigh;
    if (isHigh) {
      high++;
      highBottom = Math.min(highBottom, size);
      highest = Math.max(highest, size);
    } else {
      low++;
      lowest = Math.min(lowest, size);
      lowTop = Math.max(lowTop, size);
    }
    last = i;
  }
  // Noise about 0 of what is switched off reaches 0 as well.
  if (none > zeros_ratio * low) return [];
  if (Math.min(low, high) < fewest || !isThousands(highest / lowTop)) return [];
  return [
    {
      kind: 'two scales',
      channel: name,
      from_s: time_s[first]!,
      to_s: time_s[last]!,
      shows: `${name} has ${high} samples from ${written(highBottom)} to ${written(highest)} and ${low} from ${written(lowest)} to ${written(lowTop)}, none between, and changes from the ones to the others ${changes === 1 ? 'once' : `${changes} times`}, first at ${formatQuantity(time_s[first]!, 'time', 5)}`,
      asks: 'a unit that changes within the file, or was it switched off?',
    },
  ];
}

/** A size in the middle of the widest empty stretch of at least a decade between two sizes; null where there is none. */
function emptyDecade(values: Float64Array): number | null {
  const counts = new Uint32Array(bins);
  const number = new DataView(new ArrayBuffer(8));
  for (let i = 0; i < values.length; i++) {
    const size = Math.abs(values[i]!);
    if (size === 0) continue;
    number.setFloat64(0, size);
    counts[number.getUint32(0) >>> bitsBelow]!++;
  }
  let best = { from: 0, length: 0 };
  let last = -1;
  for (let bin = 0; bin < bins; bin++) {
    if (counts[bin] === 0) continue;
    if (last >= 0 && bin - last - 1 > best.length) best = { from: last + 1, length: bin - last - 1 };
    last = bin;
  }
  if (best.length < decade) return null;
  number.setUint32(0, (best.from + (best.length >> 1)) << bitsBelow);
  number.setUint32(4, 0);
  return number.getFloat64(0);
}
