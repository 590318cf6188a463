/** One round of a wave that is sampled at a whole number of points in a whole number of turns. */
import { cosineOfTurns } from '../../base/sine.ts';

/** A round is looked for among so many samples. */
const longest = 4096;
/** Less than this of a turn is rounding. */
const slack_turns = 1e-12;

/** cos 2πt m of a wave that makes t turns from one sample m to the next, until it is where it began; null if it never is. */
export function roundOf(turns: number): Float64Array | null {
  for (let count = 1; count <= longest; count++) {
    const whole = Math.round(turns * count);
    if (whole < 1 || Math.abs(turns * count - whole) > slack_turns) continue;
    return Float64Array.from({ length: count }, (_, m) => cosineOfTurns(((m * whole) % count) / count));
  }
  return null;
}
