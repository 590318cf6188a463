/**
 * A power or a current that stands still over nearly all of its recording, so that nothing elsewhere shows its sensor alive.
 *
 * The power of a cabinet never does: fans, links and the supplies themselves move it by more than a thousandth. A coarse sensor
 * may show one value of it all the same, and so may an idle cabinet: which of them it is, no file can tell, so it is asked.
 * What it was before (a load that really stepped once, or a sensor that froze) is not told apart either, so a level that
 * takes less of the recording shows nothing; nor does one that the channel leaves and comes back to.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { medianOf } from '../quantile.ts';
import { isRestless, TurnCount } from './equal-runs.ts';
import { fewestSamples, type Sampled, type Sign } from './sign.ts';

/** To this share of its value it stands still, the digit that flickers at its end included. */
const still_ratio = 1e-4;
/** So much of the samples it takes. */
const least_share = 0.9;
/** From its beginning to its end so many samples may lie elsewhere, as disturbances do. */
const mostStray = 3;

export function still({ name, time_s, values, written }: Sampled): Sign[] {
  const n = values.length;
  if (n < fewestSamples) return [];
  const level = medianOf(n, (i) => values[i]!);
  // Zero is a load that was switched off, or has a sign of its own.
  if (level === 0) return [];
  const stands = (i: number): boolean => Math.abs(values[i]! - level) <= 0.5 * still_ratio * Math.abs(level);
  const elsewhere = new TurnCount();
  let [count, first, last] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    if (stands(i)) {
      if (count++ === 0) first = i;
      last = i;
    } else if (i > 0 && !stands(i - 1)) elsewhere.meet(values[i]! - values[i - 1]!);
    else elsewhere.break();
  }
  const isLong = count >= least_share * n && last - first + 1 - count <= mostStray;
  // Where it moves elsewhere, what it does there says more (`frozen.ts`, `clipped.ts`).
  if (!isLong || isRestless(elsewhere.unrest(n - count))) return [];
  const [from_s, to_s] = [time_s[first]!, time_s[last]!];
  const length = formatQuantity(to_s - from_s, 'time', 4);
  const where =
    count === n
      ? `all ${n} samples over ${length}`
      : `${count} of ${n} samples (${length} from ${formatQuantity(from_s, 'time', 5)} on), and hardly moves in the others`;
  return [
    {
      kind: 'frozen',
      channel: name,
      from_s,
      to_s,
      shows: `${name} stands at ${written(level)}, within ${formatPercent(still_ratio)}, in ${where}`,
      asks: 'a dead sensor, or a load so steady, or a sensor so coarse, that nothing of it shows?',
    },
  ];
}

/** Of channels what `known` signs do not say already. */
export function stillBeside(channels: readonly Sampled[], known: readonly Sign[]): Sign[] {
  const isTold = (name: string): boolean =>
    known.some(({ kind, channel }) => channel === name && (kind === 'frozen' || kind === 'never changes'));
  return channels.filter(({ name }) => !isTold(name)).flatMap(still);
}
