/** Values of a column by their rank, without sorting all of it. */

/** Classes of like width between the least and the largest value: only those that hold an asked rank are sorted. */
const classes = 1024;

/** What would stand at some ranks, 0 for the least value, if the values were sorted; in the order of `ranks`. */
export function ranked(values: Float64Array, ranks: readonly number[]): number[] {
  let least = Number.POSITIVE_INFINITY;
  let largest = Number.NEGATIVE_INFINITY;
  let isNumber = true;
  for (let j = 0; j < values.length; j++) {
    const value = values[j]!;
    if (value < least) least = value;
    if (value > largest) largest = value;
    // Passes every comparison.
    if (Number.isNaN(value)) isNumber = false;
  }
  const perUnit = classes / (largest - least);
  if (!isNumber || !Number.isFinite(perUnit)) {
    const sorted = Float64Array.from(values).sort();
    return ranks.map((rank) => sorted[rank]!);
  }
  const classOf = (value: number): number => Math.min(classes - 1, Math.floor((value - least) * perUnit));
  const count = new Int32Array(classes);
  for (let j = 0; j < values.length; j++) count[classOf(values[j]!)]!++;
  const asked = classesOf(ranks, count);
  // Where the values of an asked class go, one class after the other.
  const place = new Int32Array(classes).fill(-1);
  let room = 0;
  for (const { at } of asked) {
    if (place[at]! >= 0) continue;
    place[at] = room;
    room += count[at]!;
  }
  const begin = place.slice();
  const gathered = new Float64Array(room);
  for (let j = 0; j < values.length; j++) {
    const k = classOf(values[j]!);
    if (place[k]! >= 0) gathered[place[k]!++] = values[j]!;
  }
  for (const at of new Set(asked.map((one) => one.at))) gathered.subarray(begin[at]!, place[at]!).sort();
  return asked.map(({ at, within }) => gathered[begin[at]! + within]!);
}

/** The class that holds each rank, and which of its values in order that is. */
function classesOf(
  ranks: readonly number[],
  count: Int32Array,
): readonly { readonly at: number; readonly within: number }[] {
  /** Values up to each class, its own included. */
  const upTo = Int32Array.from(count);
  for (let k = 1; k < classes; k++) upTo[k]! += upTo[k - 1]!;
  return ranks.map((rank) => {
    let [at, end] = [0, classes - 1];
    while (at < end) {
      const middle = (at + end) >> 1;
      if (upTo[middle]! > rank) end = middle;
      else at = middle + 1;
    }
    return { at, within: rank - upTo[at]! + count[at]! };
  });
}
