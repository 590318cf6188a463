/** What a plot shows, in numbers: SI, the unit in every name. */

export interface Column {
  readonly name: string;
  /** NaN where there is nothing. */
  readonly values: ArrayLike<number>;
}

export interface Table {
  /** What the rows stand over, ascending: time, frequency, voltage. */
  readonly over: Column;
  readonly columns: readonly Column[];
}

/** Place of the row at or before a value of what the rows stand over; the first where all lie after it. */
export function rowAt({ over: { values } }: Table, value: number): number {
  let [low, high] = [0, values.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (values[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
