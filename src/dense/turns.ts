/** Parts of a whole turn, as transforms of every length share them. */
import { cosine, sine } from '../base/sine.ts';

/** e^(−πi j/h) at h + j, for h = 1, 2, 4 …: a longer table begins with a shorter one. */
let made: Float64Array = Float64Array.of(0, 0, 1, -0);

/** Longer tables are made anew each time, so as not to stand in memory for good. */
const longestKept = 2 ** 20;

/** For transforms of `size`, a power of two. */
export function turnsFor(size: number): Float64Array {
  if (2 * size <= made.length) return made.subarray(0, 2 * size);
  const turns = new Float64Array(2 * size);
  turns.set(made);
  for (let half = made.length / 2; half < size; half *= 2) add(turns, half);
  if (size <= longestKept) made = turns;
  return turns;
}

/** Every other one stands in the half before, and four in a half follow from one. */
function add(turns: Float64Array, half: number): void {
  const put = (j: number, re: number, im: number): void => {
    turns[2 * (half + j)] = re;
    turns[2 * (half + j) + 1] = im;
  };
  for (let j = 0; j < half; j += 2) put(j, turns[half + j]!, turns[half + j + 1]!);
  for (let j = 1; j < half; j += 2) {
    if (4 * j > half) break;
    const c = cosine((Math.PI * j) / half);
    const s = sine((Math.PI * j) / half);
    put(j, c, -s);
    put(half - j, -c, -s);
    put(half / 2 - j, s, -c);
    put(half / 2 + j, -s, -c);
  }
  if (half === 2) put(1, 0, -1);
}
