/** Vectors square to each other that one more is to be made square to, held in the compiled form's memory meanwhile. */
import { compiled } from './compiled.ts';
import { takeOut } from './krylov.ts';

export interface HeldBasis {
  add(vector: Float64Array): void;
  /** Takes out of w what it has of them, and adds that to `parts`, one number for each. */
  takeOut(w: Float64Array, parts: Float64Array): void;
}

/** `work` adds at most so many vectors of `size` numbers. */
export function holdingBasis<T>(most: number, size: number, work: (basis: HeldBasis) => T): T {
  const fast = compiled();
  let count = 0;
  if (fast === null) {
    const all = new Float64Array(most * size);
    return work({
      add: (vector) => all.set(vector, size * count++),
      takeOut: (w, parts) => takeOut(all, count, size, w, parts),
    });
  }
  return fast.holding((most + 1) * size + most, (basis) => {
    const vector = basis + 8 * most * size;
    const sums = vector + 8 * size;
    return work({
      add: (one) => fast.write(one, basis + 8 * size * count++),
      takeOut: (w, parts) => {
        fast.write(w, vector);
        fast.write(parts, sums);
        fast.call.takeOut(basis, count, size, vector, sums);
        fast.takeBack(w, vector);
        fast.takeBack(parts, sums);
      },
    });
  });
}
