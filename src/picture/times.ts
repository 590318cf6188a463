/** Moments as whole ticks, and back: exact, however late in a run. */

/** A distance in time is told by so many numbers of sixteen bits: 48 bits of quarter microseconds are two years. */
const timeParts = [1, 0x1_0000, 0x1_0000_0000];

export function ticksOf(times_s: Float64Array, tick_s: number): Float64Array {
  return times_s.map((t) => Math.round(t / tick_s));
}

/** Times in ticks, each as its distance from the one before, part after part. */
export function putTimes(times_s: Float64Array, tick_s: number, put: (value: number) => void): void {
  const ticks = ticksOf(times_s, tick_s);
  for (const part of timeParts)
    ticks.forEach((tick, k) => {
      put(Math.floor((tick - (ticks[k - 1] ?? 0)) / part) % 0x1_0000);
    });
}

/** The times back [s]: `count` of them. */
export function takeTimes(count: number, tick_s: number, take: () => number): Float64Array {
  const distances = new Float64Array(count);
  for (const part of timeParts) for (let k = 0; k < count; k += 1) distances[k]! += part * take();
  let tick = 0;
  return distances.map((distance) => {
    tick += distance;
    return tick * tick_s;
  });
}
