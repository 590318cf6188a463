/** Loops over dense matrices as they stand, over the same compiled: a printed line each, for `npm run bench`. */
import { multiply, solveInPlace } from '../src/dense/dense.ts';
import { eliminate } from '../src/dense/elimination.ts';
import { holdingMaps } from '../src/dense/held-maps.ts';
import { hessenbergValues, toHessenberg } from '../src/dense/hessenberg-form.ts';
import { addProduct, apply } from '../src/dense/products.ts';
import { iterate } from '../src/dense/qr-iteration.ts';
import { reduce } from '../src/dense/reduction.ts';

/** States of the reference cabinet that follow each other. */
const n = 172;

/** What and the ratio, by a timer that gives the best of a few rounds [s]. */
export function denseRatios(best: (work: () => void) => number): readonly (readonly [string, number])[] {
  const a = Float64Array.from(
    { length: n * n },
    (_, k) => ((k * 7919) % 1013) / 1013 + (k % (n + 1) ? 0 : 3),
  );
  const none = new Float64Array(0);
  const [c, h] = [new Float64Array(n * n), a.slice()];
  toHessenberg(h, none, n);
  const [x, y] = [a.slice(0, n), new Float64Array(n)];
  const some = (work: () => void) => (): void => {
    for (let k = 0; k < 200; k++) work();
  };
  const column = (): Float64Array => new Float64Array(n);
  const ratio = (plain: () => void, fast: () => void): number => best(plain) / best(fast);
  return [
    [
      'product',
      ratio(
        () => addProduct(c.fill(0), a, a, n, n, n),
        () => multiply(c, a, a, n, n, n),
      ),
    ],
    [
      'elimination',
      ratio(
        () => eliminate(a.slice(), a.slice(), n, n),
        () => solveInPlace(a.slice(), a.slice(), n, n),
      ),
    ],
    [
      'Hessenberg form',
      ratio(
        () => reduce(a.slice(), none, false, n, column(), column()),
        () => toHessenberg(a.slice(), none, n),
      ),
    ],
    [
      'its eigenvalues',
      ratio(
        () => iterate(h.slice(), n, column(), column()),
        () => hessenbergValues(h.slice(), n, column(), column()),
      ),
    ],
    [
      'a vector through a held map',
      holdingMaps(new Set([a]), (by) =>
        ratio(
          some(() => apply(y, a, x, n, n)),
          some(() => by(y, a, x, n, n)),
        ),
      ),
    ],
  ];
}
