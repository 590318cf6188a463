/**
 * Which places of a column something follows, without moving each by itself: all are moved at once, then halves of what
 * changes anything. A slope is taken at those alone.
 */
import { stepAt } from './difference.ts';

/** The golden section: no two places are moved alike, or what they do could cancel. */
const golden = 0.6180339887498949;

/** How far place j is moved when others are too, in steps of its own. */
export function moveUnlike(j: number): number {
  return 1 + ((j * golden) % 1);
}

/** Places at which moving `value` a little changes what `evaluate` gives, ascending. */
export function moversOf(value: Float64Array, evaluate: () => ArrayLike<number>): number[] {
  const still = Float64Array.from(evaluate());
  const found: number[] = [];
  const search = (from: number, to: number): void => {
    if (!changes(value, from, to, evaluate, still)) return;
    if (to - from === 1) {
      found.push(from);
      return;
    }
    const middle = (from + to) >> 1;
    search(from, middle);
    search(middle, to);
  };
  search(0, value.length);
  return found;
}

function changes(
  value: Float64Array,
  from: number,
  to: number,
  evaluate: () => ArrayLike<number>,
  still: Float64Array,
): boolean {
  const at = value.slice(from, to);
  // Up and down: what rests on a clamp follows one way alone.
  for (const sign of [1, -1]) {
    for (let j = from; j < to; j++) value[j]! += sign * moveUnlike(j) * stepAt(value[j]!, 1);
    const moved = evaluate();
    value.set(at, from);
    for (let i = 0; i < still.length; i++) if (still[i] !== moved[i]) return true;
  }
  return false;
}
