/** The largest change of power within a given time: what a stretch of a recording asks of storage and loops. */
import type { Series } from '../../samples/series.ts';

/**
 * Highest less lowest sample within any `width_s` of the stretch [W]; 0 where it holds no two samples. One pass: the
 * candidates for highest and lowest of the window stand in two queues.
 */
export function swingWithin(
  { time_s, power_W }: Series,
  from_s: number,
  to_s: number,
  width_s: number,
): number {
  const n = time_s.length;
  const high = new Int32Array(n);
  const low = new Int32Array(n);
  let [highFrom, highTo, lowFrom, lowTo] = [0, 0, 0, 0];
  let swing_W = 0;
  for (let i = 0; i < n; i++) {
    const t = time_s[i]!;
    if (t < from_s || t > to_s) continue;
    while (highTo > highFrom && power_W[high[highTo - 1]!]! <= power_W[i]!) highTo--;
    while (lowTo > lowFrom && power_W[low[lowTo - 1]!]! >= power_W[i]!) lowTo--;
    high[highTo++] = i;
    low[lowTo++] = i;
    while (time_s[high[highFrom]!]! < t - width_s) highFrom++;
    while (time_s[low[lowFrom]!]! < t - width_s) lowFrom++;
    swing_W = Math.max(swing_W, power_W[high[highFrom]!]! - power_W[low[lowFrom]!]!);
  }
  return swing_W;
}
