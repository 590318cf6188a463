import { counted } from '../base/counted.ts';
import { formatPercent, formatQuantity } from '../base/quantity.ts';
import type { Gap } from './gaps.ts';
import { medianInterval_s } from './series.ts';

/** A step is as long as another to this share. */
const alike_ratio = 0.05;
/** Steps of one length are no accident from this share of all on. */
const common_ratio = 0.1;
/** So many steps may be of no such length. */
const odd_ratio = 0.02;
const fewestSteps = 10;
/** A step of more than so many is a gap, and told as one. */
const longest = 4;

export interface MixedSteps {
  readonly sentence: string;
  /** Share of the time that steps of several lie in. */
  readonly ratio: number;
}

/**
 * Stamps whose steps are one length and a few whole multiples of it, in gaps left out; null where they are not. That
 * rows are missing cannot be known: where every second is, the median step is twice as long and shows no gap.
 */
export function mixedSteps(name: string, time_s: Float64Array, gaps: readonly Gap[]): MixedSteps | null {
  const steps = time_s.length - 1;
  if (steps < fewestSteps) return null;
  const one_s = shortest(time_s);
  let [ones, more, odd, missing, more_s] = [0, 0, 0, 0, 0];
  let gap = 0;
  for (let i = 0; i < steps; i++) {
    if (gaps[gap]?.from_s === time_s[i]) {
      gap++;
      continue;
    }
    const step_s = time_s[i + 1]! - time_s[i]!;
    const count = Math.round(step_s / one_s);
    if (count < 1 || count > longest || !isAlike(step_s, count * one_s, one_s)) odd++;
    else if (count === 1) ones++;
    else {
      more++;
      missing += count - 1;
      more_s += step_s;
    }
  }
  if (more === 0 || ones === 0 || odd > odd_ratio * steps) return null;
  const ratio = more_s / (time_s[steps]! - time_s[0]!);
  const [one, two] = [one_s, 2 * one_s].map((t) => formatQuantity(t, 'time', 4));
  return {
    sentence: `Stamps of ${name} are a mixture of steps: ${ones} of ${one}, ${more} of ${two} or more. ${counted(missing, 'row')} may be missing in ${formatPercent(ratio, 2)} of the time, unless stamps are rounded or only changes were recorded.`,
    ratio,
  };
}

/** The median step, or the half or the third of it where many are so short. */
function shortest(time_s: Float64Array): number {
  const median_s = medianInterval_s(time_s);
  for (const parts of [3, 2]) {
    const part_s = median_s / parts;
    let count = 0;
    for (let i = 0; i + 1 < time_s.length; i++)
      if (isAlike(time_s[i + 1]! - time_s[i]!, part_s, part_s)) count++;
    if (count >= common_ratio * (time_s.length - 1)) return part_s;
  }
  return median_s;
}

function isAlike(step_s: number, other_s: number, one_s: number): boolean {
  return Math.abs(step_s - other_s) <= alike_ratio * one_s;
}
