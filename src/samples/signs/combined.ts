/**
 * A channel that is made of others: their sum, mean, highest or lowest. Beside its parts it counts them twice. A sum is
 * known by its gain: it follows its parts one to one, perhaps later, with losses and an offset of its own, while devices
 * that merely run in step follow the sum of n others with a gain of 1/n.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { lagOf } from '../lag.ts';
import type { Sampled } from './sign.ts';
import { covariances, type Together, together } from './together.ts';

export interface Combined {
  /** Place of the channel, and of those that it is made of. */
  readonly whole: number;
  readonly parts: readonly number[];
  /** What it is, in words that follow the name of the channel. */
  readonly words: string;
}

/** Of the variance of a mean, or of a sum to the digit, no more than this is its own: rounding. */
const exact_ratio = 1e-6;
/** Of that of a sum behind a meter of its own. */
const followed_ratio = 0.01;
/** Gains of a sum: down to a meter's error, up to the losses of a supply. */
const [leastGain, mostGain] = [0.9, 1.35];
/** Channels up to which all choices of parts are tried; of more all others, and all but one. */
const mostTried = 10;
/** Furthest that a sum may lag behind its parts, in samples. */
const reach = 250;
/** Share of the samples that must be the highest of the others, to the digit. */
const extreme_ratio = 0.999;
/** What stamps cost that are not even to the last bit. */
const same_ratio = 1e-9;

/** The first that is found; null where none is. */
export function combined(channels: readonly Sampled[]): Combined | null {
  if (channels.length < 3) return null;
  const all = together(channels);
  if (all === null) return null;
  const products = covariances(all.columns);
  // The largest first: where a node and its parts are all alike, it is the whole.
  const order = channels.map((_, k) => k).toSorted((a, b) => products[b]![b]! - products[a]![a]!);
  const names = channels.map(({ name }) => name);
  for (const whole of order) {
    const found =
      bySum(products, whole, names) ?? byExtremes(all, whole, names) ?? later(all, products, whole, names);
    if (found !== null) return found;
  }
  return null;
}

function bySum(products: readonly Float64Array[], whole: number, names: readonly string[]): Combined | null {
  let best: { readonly parts: readonly number[]; readonly fit: Fit } | null = null;
  for (const parts of choices(names.length, whole)) {
    const fit = fitted(products, whole, parts);
    if (kindOf(fit, parts.length) !== null && fit.own_ratio < (best?.fit.own_ratio ?? 1))
      best = { parts, fit };
  }
  if (best === null) return null;
  const { parts, fit } = best;
  const list = parts.map((k) => names[k]).join(' + ');
  return { whole, parts, words: said(kindOf(fit, parts.length)!, fit, list) };
}

type Kind = 'sum' | 'mean' | 'follows';

function said(kind: Kind, { gain, own_ratio }: Fit, list: string): string {
  switch (kind) {
    case 'sum':
      return `is the sum ${list}`;
    case 'mean':
      return `is the mean of ${list}`;
    case 'follows':
      return `follows the sum ${list}, at ${Number(gain.toPrecision(3))} times its changes, with ${formatPercent(own_ratio, 2)} of its variance its own`;
    default:
      throw new RangeError(`unknown kind ${kind satisfies never}`);
  }
}

/** How a channel follows the sum of others: least squares, and the share of its variance that this leaves. */
interface Fit {
  readonly gain: number;
  readonly own_ratio: number;
}

function fitted(products: readonly Float64Array[], whole: number, parts: readonly number[]): Fit {
  let [own, both] = [0, 0];
  for (const j of parts) {
    both += products[whole]![j]!;
    for (const k of parts) own += products[j]![k]!;
  }
  const variance = products[whole]![whole]!;
  if (!(own > 0) || !(variance > 0)) return { gain: 0, own_ratio: 1 };
  return { gain: both / own, own_ratio: Math.max(0, 1 - (both * both) / (own * variance)) };
}

function kindOf({ gain, own_ratio }: Fit, parts: number): Kind | null {
  if (own_ratio < exact_ratio) {
    if (Math.abs(gain - 1) < 1e-3) return 'sum';
    if (Math.abs(gain * parts - 1) < 1e-3) return 'mean';
  }
  return own_ratio < followed_ratio && gain > leastGain && gain < mostGain ? 'follows' : null;
}

/** Choices of two or more among all channels but one. */
function choices(count: number, whole: number): number[][] {
  const others = Array.from({ length: count }, (_, k) => k).filter((k) => k !== whole);
  if (count > mostTried) return [others, ...others.map((left) => others.filter((k) => k !== left))];
  return Array.from({ length: 1 << others.length }, (_, mask) =>
    others.filter((_, bit) => (mask & (1 << bit)) !== 0),
  ).filter((parts) => parts.length > 1);
}

function byExtremes({ columns }: Together, whole: number, names: readonly string[]): Combined | null {
  const parts = columns.map((_, k) => k).filter((k) => k !== whole);
  const others = parts.map((k) => columns[k]!);
  const own = columns[whole]!;
  let [highs, lows] = [0, 0];
  for (let i = 0; i < own.length; i++) {
    let [highest, lowest] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    for (const column of others) {
      if (column[i]! > highest) highest = column[i]!;
      if (column[i]! < lowest) lowest = column[i]!;
    }
    const near = same_ratio * (Math.abs(highest) + Math.abs(lowest));
    if (Math.abs(own[i]! - highest) <= near) highs++;
    if (Math.abs(own[i]! - lowest) <= near) lows++;
  }
  const least = extreme_ratio * own.length;
  const isOne = parts.some((k) => isSame(own, columns[k]!));
  if (isOne || Math.max(highs, lows) < least) return null;
  const list = parts.map((k) => names[k]).join(', ');
  return {
    whole,
    parts,
    words: `is the ${highs >= least ? 'highest' : 'lowest'} of ${list} in every sample`,
  };
}

function isSame(a: Float64Array, b: Float64Array): boolean {
  return a.every((value, i) => value === b[i]);
}

/** A sum of all others whose stamps are late, or early. */
function later(
  { columns, interval_s }: Together,
  products: readonly Float64Array[],
  whole: number,
  names: readonly string[],
): Combined | null {
  const parts = columns.map((_, k) => k).filter((k) => k !== whole);
  const own = products[whole]![whole]!;
  let sum_variance = 0;
  for (const j of parts) for (const k of parts) sum_variance += products[j]![k]!;
  // What varies far more, or less, than the others together is no sum of theirs, early or late.
  const size = own / sum_variance;
  if (!(size > leastGain * leastGain && size < mostGain * mostGain)) return null;
  const sum = new Float64Array(columns[0]!.length);
  for (const k of parts) for (let i = 0; i < sum.length; i++) sum[i]! += columns[k]![i]!;
  const lag = lagOf(sum, columns[whole]!, interval_s, reach);
  if (lag === null || 1 - lag.correlation_ratio ** 2 > followed_ratio) return null;
  const list = parts.map((k) => names[k]).join(' + ');
  const late = `${formatQuantity(Math.abs(lag.lag_s), 'time', 3)} ${lag.lag_s < 0 ? 'earlier' : 'later'}`;
  return { whole, parts, words: `follows the sum ${list}, ${late}` };
}
