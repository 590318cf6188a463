/** Hessenberg form and its eigenvalues, compiled where they are large enough for it. */
import { compiled } from './compiled.ts';
import { iterate } from './qr-iteration.ts';
import { reduce } from './reduction.ts';

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
