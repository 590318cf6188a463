/** How shelves that are alike may hunt: all together, or one against another while the rest stand still. */

export interface Direction {
  readonly words: string;
  /** Of each running shelf. */
  readonly weights: readonly number[];
}

/** `sum`: the loop also acts on all of them together; an average share does not. */
export function directionsOf(shelves: readonly string[], sum: boolean): Direction[] {
  const [first, second] = shelves;
  if (shelves.length === 1) return sum ? [{ words: first!, weights: [1] }] : [];
  const apart = { words: `${first} against ${second}`, weights: shelves.map((_, k) => [1, -1][k] ?? 0) };
  return sum
    ? [{ words: `all ${shelves.length} shelves together`, weights: shelves.map(() => 1) }, apart]
    : [apart];
}
