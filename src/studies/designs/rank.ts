/** Designs as points: in each objective less is better. */
export type Point = readonly number[];

/** At least as good in each objective, and better in one. */
export function beats(a: Point, b: Point): boolean {
  return a.every((value, k) => value <= b[k]!) && a.some((value, k) => value < b[k]!);
}

/** Those that no other one beats; what is alike beats none of its like. */
export function frontOf<T>(all: readonly T[], at: (one: T) => Point): readonly T[] {
  return all.filter((one) => !all.some((other) => beats(at(other), at(one))));
}
