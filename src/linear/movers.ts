/**
 * Which places of a column something follows, without moving each by itself: all are moved at once, then halves of what
 * changes anything. A slope is taken at those alone.
 */
import { differenceStep } from './jacobian.ts';

/** The golden section: no two places are moved alike, or what they do could cancel. */
const golden = 0.6180339887498949;

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
  for (let j = from; j < to; j++) {
    const unlike = 1 + ((j * golden) % 1);
    value[j]! += unlike * differenceStep * Math.max(Math.abs(value[j]!), 1);
  }
  const moved = evaluate();
  value.set(at, from);
  return still.some((x, i) => x !== moved[i]);
}
