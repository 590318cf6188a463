/** Places in a counted range. */
const places = 4096;

/**
 * The value of rank `rank` (0 is the smallest) among `count` values, exact and without a copy: the range is cut
 * into places, the place that holds the rank is cut again, until few enough values are left to sort.
 */
export function ofRank(count: number, valueAt: (i: number) => number, rank: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) {
    const value = valueAt(i);
    if (value < low) low = value;
    if (value > high) high = value;
  }
  let below = 0;
  for (;;) {
    const inside: number[] = [];
    const counts = new Uint32Array(places);
    const width = (high - low) / places;
    if (!(width > 0)) return low;
    const placeOf = (value: number) => Math.min(places - 1, Math.floor((value - low) / width));
    let within = 0;
    for (let i = 0; i < count; i++) {
      const value = valueAt(i);
      if (value < low || value > high) continue;
      within++;
      counts[placeOf(value)]!++;
    }
    if (within <= 4 * places) {
      for (let i = 0; i < count; i++) {
        const value = valueAt(i);
        if (value >= low && value <= high) inside.push(value);
      }
      inside.sort((a, b) => a - b);
      return inside[rank - below]!;
    }
    let place = 0;
    while (below + counts[place]! <= rank) below += counts[place++]!;
    // The bounds of the place as its own values show them: equal values must end the search.
    let nextLow = Number.POSITIVE_INFINITY;
    let nextHigh = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      const value = valueAt(i);
      if (value < low || value > high || placeOf(value) !== place) continue;
      if (value < nextLow) nextLow = value;
      if (value > nextHigh) nextHigh = value;
    }
    low = nextLow;
    high = nextHigh;
  }
}

/** Median: the middle value, or the mean of the two middle ones. */
export function medianOf(count: number, valueAt: (i: number) => number): number {
  const upper = ofRank(count, valueAt, count >> 1);
  return count % 2 === 1 ? upper : 0.5 * (ofRank(count, valueAt, (count >> 1) - 1) + upper);
}

/** Value below which about `share` of the values lie. */
export function quantileOf(count: number, valueAt: (i: number) => number, share: number): number {
  return ofRank(count, valueAt, Math.min(count - 1, Math.floor(share * count)));
}
