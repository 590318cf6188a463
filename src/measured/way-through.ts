import type { Fitted } from './fine.ts';

/** Time of the measurement before which this share of what shows the place lies. */
export function wayThrough(channels: readonly Fitted[], share: number): number {
  const all = channels.flatMap(({ time_s, byPlace, sigma }) =>
    [...byPlace].map((g, i): [number, number] => [time_s[i]!, (g * g) / (sigma * sigma)]),
  );
  all.sort(([a], [b]) => a - b);
  const most = share * all.reduce((sum, [, weight]) => sum + weight, 0);
  let sum = 0;
  for (const [time_s, weight] of all) {
    sum += weight;
    if (sum >= most) return time_s;
  }
  return Number.NaN;
}
