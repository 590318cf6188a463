/**
 * The arithmetic of a law as steps, on numbers of type T: what follows a law over a run says what a step does. `into` and `at`
 * are places of the law (`slot.ts`).
 */
export interface Steps<T> {
  /** What stands in a field or under a name: a number from outside, or one that a step left there. */
  read(stored: number | T, at: number): T;
  whole(n: number): T;
  sumOf(a: T, b: T, into: number): T;
  differenceOf(a: T, b: T, into: number): T;
  productOf(a: T, b: T, into: number): T;
  quotientOf(a: T, b: T, into: number): T;
  nearestWhole(a: T, into: number): T;
  moved(a: T, into: number): T;
  negative(a: T): T;
  /** The sign of a − b. */
  orderOf(a: T, b: T): number;
}
