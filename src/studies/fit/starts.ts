/**
 * Where searches begin: at the present values, and at points spread evenly over the box, Halton's sequence in the
 * bases 2, 3, 5 … (J. H. Halton, Numerische Mathematik 2, 1960). The same points every time.
 */
const bases = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29];

export function startsOf(present: readonly number[], count: number): number[][] {
  const spread = Array.from({ length: count }, (_, k) =>
    // From the ends of the box inwards by a twentieth: there differences lean and models are at their oddest.
    present.map((_value, j) => 0.05 + 0.9 * radicalInverse(k + 1, bases[j % bases.length]!)),
  );
  return [[...present], ...spread];
}

/** The digits of a whole number in a base, mirrored behind the point. */
function radicalInverse(k: number, base: number): number {
  let [value, share, rest] = [0, 1 / base, k];
  while (rest > 0) {
    value += share * (rest % base);
    rest = Math.floor(rest / base);
    share /= base;
  }
  return value;
}
