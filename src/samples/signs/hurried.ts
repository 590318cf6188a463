/**
 * Rows that come far faster than all others for a while: a logger that wrote out what had waited in it, with the stamps of
 * the writing. What they show then lasted longer, and shows for a moment.
 */
import { formatQuantity } from '../../base/quantity.ts';
import { medianInterval_s } from '../series.ts';
import { longerThanChance } from './equal-runs.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

/** A step below this share of the median step is short. */
const short_ratio = 0.25;

/** One sign for each stretch, whatever channels come in it. */
export function hurried(channels: readonly Sampled[]): Sign[] {
  const found: Sign[] = [];
  for (const channel of channels)
    for (const sign of stretchesOf(channel))
      if (!found.some(({ from_s, to_s }) => from_s === sign.from_s && to_s === sign.to_s)) found.push(sign);
  return found;
}

function stretchesOf({ name, time_s }: Sampled): Sign[] {
  const n = time_s.length;
  if (n < fewestSamples) return [];
  const usual_s = medianInterval_s(time_s);
  const isShort = (i: number): boolean => time_s[i + 1]! - time_s[i]! < short_ratio * usual_s;
  let short = 0;
  for (let i = 0; i + 1 < n; i++) if (isShort(i)) short++;
  // Where stamps come unevenly by nature, many steps are short, and some of them in a row.
  const least = longerThanChance(short / (n - 1), n);
  const signs: Sign[] = [];
  for (let from = 0; from + 1 < n; ) {
    let to = from;
    while (to + 1 < n && isShort(to)) to++;
    if (to - from >= least) signs.push(signOf(name, time_s, from, to, usual_s));
    from = Math.max(to, from + 1);
  }
  return signs;
}

function signOf(name: string, time_s: Float64Array, from: number, to: number, usual_s: number): Sign {
  const [from_s, to_s] = [time_s[from]!, time_s[to]!];
  const steps = to - from;
  const seconds = (length_s: number): string => formatQuantity(length_s, 'time', 3);
  return {
    kind: 'hurried',
    channel: name,
    from_s,
    to_s,
    shows: `${steps + 1} rows of ${name} from ${formatQuantity(from_s, 'time', 5)} on come within ${seconds(to_s - from_s)}, where as many elsewhere take ${seconds(steps * usual_s)}`,
    asks: 'written out at once by a logger in which they had waited, so that what they show lasted longer, or was it read so much faster there?',
  };
}
