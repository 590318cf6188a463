/**
 * Columns of levels as what is left when each is continued from the values before it: in a straight line or as the last
 * value stands, with or without what the neighbouring column left likewise; for each column what leaves least. Columns that
 * move alike or hardly at all leave close to nothing. Whole numbers modulo 65,536, exact both ways.
 */

/**
 * How far a straight line is continued: for each value the length of its step over that of the step before. null: not at all.
 */
export type Steps = Float64Array | null;

/** A line is continued over at most so many of its steps: noise would run away. */
const mostStep = 4;

/** The steps that times say. */
export function stepsOf(times: Float64Array): Float64Array {
  return times.map((t, k) => {
    if (k < 2) return 0;
    const before = times[k - 1]! - times[k - 2]!;
    return before > 0 ? Math.min(mostStep, (t - times[k - 1]!) / before) : 0;
  });
}

/** What is expected of the k-th level: the last one, or where there are steps a straight line through the last two. */
function expected(levels: Uint16Array, k: number, steps: Steps): number {
  if (k === 0) return 0;
  const last = levels[k - 1]!;
  return k === 1 || steps === null ? last : last + Math.round((last - levels[k - 2]!) * steps[k]!);
}

/** What a column leaves of itself. */
function leftOf(levels: Uint16Array, steps: Steps): Int32Array {
  const left = new Int32Array(levels.length);
  for (let k = 0; k < levels.length; k += 1) left[k] = levels[k]! - expected(levels, k, steps);
  return left;
}

/** Bits of the number that says how a column is told. */
const straight = 1;
const besides = 2;

/**
 * Hands out columns of one kind, column after column: how it is told, then what is left, each from 0 to 65,535, small
 * remainders as small numbers.
 */
export function fold(columns: readonly Uint16Array[], steps: Steps, put: (value: number) => void): void {
  const nothing = new Int32Array(columns[0]?.length ?? 0);
  // What the neighbour left, standing and straight.
  let before: readonly Int32Array[] = [nothing, nothing];
  columns.forEach((levels, c) => {
    const left = [leftOf(levels, null), leftOf(levels, steps)];
    const ways = [0, straight, besides, straight | besides].filter(
      (way) => (steps !== null || (way & straight) === 0) && (c > 0 || (way & besides) === 0),
    );
    const told = ways.map((way) => {
      const own = left[way & straight]!;
      const beside = (way & besides) === 0 ? nothing : before[way & straight]!;
      return own.map((value, k) => zigzag(value - beside[k]!));
    });
    const costs = told.map(costOf);
    const best = costs.indexOf(Math.min(...costs));
    put(ways[best]!);
    told[best]!.forEach(put);
    before = left;
  });
}

/** About how many bits numbers take that are mostly small. */
function costOf(values: Int32Array): number {
  return values.reduce((sum, value) => sum + Math.log2(1 + value), 0);
}

/** The columns back: `count` of `length` each. */
export function unfold(count: number, length: number, steps: Steps, take: () => number): Uint16Array[] {
  let before: Uint16Array | null = null;
  return Array.from({ length: count }, () => {
    const way = take();
    const along = (way & straight) === 0 ? null : steps;
    const beside: Int32Array | null = (way & besides) === 0 || before === null ? null : leftOf(before, along);
    const levels = new Uint16Array(length);
    for (let k = 0; k < length; k += 1) {
      const left = unzigzag(take()) + (beside === null ? 0 : beside[k]!);
      levels[k] = expected(levels, k, along) + left;
    }
    before = levels;
    return levels;
  });
}

/** 0, -1, 1, -2, 2 become 0, 1, 2, 3, 4; modulo 65,536. */
function zigzag(value: number): number {
  const signed = (value << 16) >> 16;
  return ((signed << 1) ^ (signed >> 31)) & 0xffff;
}

function unzigzag(folded: number): number {
  return (folded >> 1) ^ -(folded & 1);
}
