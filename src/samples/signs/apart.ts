/** Channels that do the same at different times: clocks that are apart, or devices that work one after the other. */
import { formatQuantity } from '../../base/quantity.ts';
import { correlations } from '../lag.ts';
import { quantileOf } from '../quantile.ts';
import type { Sampled, Sign } from './sign.ts';
import type { Together } from './together.ts';

/** Samples that are compared, and how far one channel is moved over the other. */
const compared = 4000;
const reach = 250;
/** Moved, no more of the variance than this is the channel's own, and at most this part of what it is unmoved. */
const own_ratio = 0.2;
const explained_ratio = 0.5;
/** A peak of the correlation that comes so near to the highest is as good: of a cycle the nearest counts. */
const asGood = 0.02;
/** Readings between two of which a channel changes come at a phase of their own. */
const phase_ratio = 1.5;

export function apart(channels: readonly Sampled[], all: Together): Sign[] {
  const near = apartBy(channels, all, 1);
  // Middle samples as they are show lags of a few; means over more of them those of a longer recording.
  const group = Math.ceil(all.columns[0]!.length / compared);
  return near.length > 0 || group === 1 ? near : apartBy(channels, all, group);
}

function apartBy(channels: readonly Sampled[], { columns, interval_s }: Together, group: number): Sign[] {
  const curves = columns.map((column) => withoutPeaks(middle(grouped(column, group))));
  const lags = curves.map((curve, k) => (k === 0 ? 0 : lagOfSame(curves[0]!, curve)));
  const told = lags.filter((lag) => lag !== null);
  const usual = quantileOf(told.length, (k) => told[k]!, 0.5);
  return channels.flatMap((one, k) => {
    const lag = lags[k] ?? usual;
    const least = phase_ratio * Math.max(1, renewal(curves[k]!), renewal(curves[0]!));
    if (Math.abs(lag - usual) < least) return [];
    const late_s = (lag - usual) * group * interval_s;
    const others = channels.length === 2 ? channels[1 - k]!.name : 'the others';
    return [
      {
        kind: 'apart',
        channel: one.name,
        from_s: one.time_s[0]!,
        to_s: one.time_s[one.time_s.length - 1]!,
        shows: `${one.name} does what ${others} do${channels.length === 2 ? 'es' : ''}, ${formatQuantity(Math.abs(late_s), 'time', 3)} ${late_s > 0 ? 'later' : 'earlier'}`,
        asks: 'are their clocks apart (--align moves them), or do they work one after the other?',
      },
    ];
  });
}

/** Samples by which `b` shows later what `a` shows; 0 where it shows it now, null where it shows something else. */
function lagOfSame(a: Float64Array, b: Float64Array): number | null {
  const most = Math.min(reach, Math.floor(a.length / 3));
  const r = correlations(a, b, most);
  const peak = Math.max(...r);
  if (!(peak > 0) || 1 - peak * peak > own_ratio) return null;
  let best = -1;
  for (let i = 1; i + 1 < r.length; i++) {
    const isPeak = r[i]! >= r[i - 1]! && r[i]! >= r[i + 1]! && r[i]! > peak - asGood;
    if (isPeak && (best < 0 || Math.abs(i - most) < Math.abs(best - most))) best = i;
  }
  const now = Math.max(0, r[most]!);
  const isBetter = best >= 0 && 1 - r[best]! ** 2 < explained_ratio * (1 - now * now);
  return isBetter ? best - most : 0;
}

/** Samples between two changes of the curve. */
function renewal(curve: Float64Array): number {
  let changes = 0;
  for (let i = 1; i < curve.length; i++) if (curve[i] !== curve[i - 1]) changes++;
  return curve.length / Math.max(1, changes);
}

/** Without the far hundredth on either side: one false peak would be all that is compared. */
function withoutPeaks(curve: Float64Array): Float64Array {
  const [low, high] = [0.01, 0.99].map((share) => quantileOf(curve.length, (k) => curve[k]!, share));
  return curve.map((value) => Math.min(high!, Math.max(low!, value)));
}

function middle(curve: Float64Array): Float64Array {
  const from = Math.floor(Math.max(0, curve.length - compared) / 2);
  return curve.subarray(from, from + compared);
}

function grouped(values: Float64Array, size: number): Float64Array {
  if (size === 1) return values;
  return Float64Array.from({ length: Math.floor(values.length / size) }, (_, k) => {
    let sum = 0;
    for (let i = k * size; i < (k + 1) * size; i++) sum += values[i]!;
    return sum / size;
  });
}
