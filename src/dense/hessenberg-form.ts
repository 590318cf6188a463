/** Hessenberg form and its eigenvalues, compiled where they are large enough for it. */
import type { Int } from '../base/int.ts';
import { compiled } from './compiled.ts';
import { iterate } from './qr-iteration.ts';
import { reduce } from './reduction.ts';
import { solveShifted } from './shifted.ts';

/** Below so many rows, moving them into the compiled form's memory costs more than it saves. */
const fewRows = 12;

/** A (n × n) to H in its place, A = Q H Qᵀ; Q into `q` where it has room for it, otherwise it is not kept. */
export function toHessenberg(h: Float64Array, q: Float64Array, n: number): void {
  const keepsQ = q.length > 0;
  if (keepsQ) for (let k = 0; k < n; k++) q[k * n + k] = 1;
  const [u, row] = [new Float64Array(n), new Float64Array(n)];
  const fast = n < fewRows ? null : compiled();
  if (fast === null) reduce(h, q, keepsQ, n, u, row);
  else
    fast.through([h, q, u, row], keepsQ ? [h, q] : [h], (...at) =>
      fast.call.reduce(at[0]!, at[1]!, keepsQ ? 1 : 0, n, at[2]!, at[3]!),
    );
}

/**
 * All eigenvalues of H (n × n, lost) into re and im, n each. Throws RangeError where the iteration does not converge.
 */
export function hessenbergValues(h: Float64Array, n: number, re: Float64Array, im: Float64Array): void {
  const fast = n < fewRows ? null : compiled();
  const at =
    fast === null
      ? iterate(h, n, re, im)
      : fast.through([h, re, im], [re, im], (...to) => fast.call.iterate(to[0]!, n, to[1]!, to[2]!));
  if (at >= 0) throw new RangeError(`the QR iteration did not converge at ${at} of ${n}`);
}

/** Where the columns for the way stand. */
type Way = [vr: Int, vi: Int, rr: Int, ri: Int, turns: Int];

/** A column of complex numbers: a right side, and what answers it. */
export interface ComplexColumn {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * Solves (s I − H) X = B in place of the sides, H by its columns. Throws RangeError where s is an eigenvalue.
 */
export function solveShiftedHessenberg(
  columns: Float64Array,
  n: number,
  s: { readonly re: number; readonly im: number },
  sides: readonly ComplexColumn[],
): void {
  if (sides.length === 0) return;
  const [re, im] = [new Float64Array(n * sides.length), new Float64Array(n * sides.length)];
  sides.forEach((side, k) => {
    re.set(side.re, k * n);
    im.set(side.im, k * n);
  });
  const numbers = (): Float64Array => new Float64Array(n);
  const [vr, vi, rr, ri, turns] = [numbers(), numbers(), numbers(), numbers(), new Float64Array(3 * n)];
  const fast = n < fewRows ? null : compiled();
  const isEigenvalue =
    fast === null
      ? solveShifted(columns, n, s.re, s.im, re, im, sides.length, vr, vi, rr, ri, turns)
      : fast.through([columns, re, im, vr, vi, rr, ri, turns], [re, im], (h, x, y, ...way) =>
          fast.call.solveShifted(h!, n, s.re, s.im, x!, y!, sides.length, ...(way as Way)),
        );
  if (isEigenvalue === 1) throw new RangeError(`s = ${s.re} + ${s.im} j is an eigenvalue`);
  sides.forEach((side, k) => {
    side.re.set(re.subarray(k * n, (k + 1) * n));
    side.im.set(im.subarray(k * n, (k + 1) * n));
  });
}
