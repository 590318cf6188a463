/** Channels of one recording side by side: even samples of the time that all of them cover. */
import { evenSamples } from '../even.ts';
import { medianInterval_s } from '../series.ts';
import { fewestSamples, type Sampled } from './sign.ts';

export interface Together {
  readonly columns: readonly Float64Array[];
  readonly interval_s: number;
}

/** Points that are compared at most: the middle of a longer recording stands for the whole. */
const mostPoints = 20_000;
/** With more channels each against each is too much. */
export const mostChannels = 32;

/** null where there is nothing to compare. */
export function together(channels: readonly Sampled[]): Together | null {
  if (channels.length < 2 || channels.length > mostChannels) return null;
  const from_s = Math.max(...channels.map(({ time_s }) => time_s[0]!));
  const to_s = Math.min(...channels.map(({ time_s }) => time_s[time_s.length - 1]!));
  const interval_s = Math.max(...channels.map(({ time_s }) => medianInterval_s(time_s)));
  // Stamps may end a rounding before the last interval does.
  const all = Math.floor((to_s - from_s) / interval_s + 0.5) + 1;
  if (!(all >= fewestSamples)) return null;
  const count = Math.min(all, mostPoints);
  const begin_s = from_s + Math.floor((all - count) / 2) * interval_s;
  return {
    columns: channels.map(({ time_s, values }) => evenSamples(time_s, values, begin_s, interval_s, count)),
    interval_s,
  };
}

/** Covariances of columns, each with each. */
export function covariances(columns: readonly Float64Array[]): Float64Array[] {
  const n = columns[0]!.length;
  const means = columns.map((column) => column.reduce((sum, x) => sum + x, 0) / n);
  return columns.map((a, j) =>
    Float64Array.from(columns, (b, k) => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (a[i]! - means[j]!) * (b[i]! - means[k]!);
      return sum / n;
    }),
  );
}
