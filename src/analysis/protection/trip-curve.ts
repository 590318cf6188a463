/** A time–current curve: straight on double logarithmic axes between its points. */
import { exponential } from '../../base/exponential.ts';
import { logarithm } from '../../base/logarithm.ts';
import type { TripCurve } from '../../scenario/scenario.ts';

/** Time of a level over that of the next higher one, at most. */
const apart_ratio = 1.04;

/**
 * Time after which a constant current trips [s]: ln t straight in ln I between points. Below the first point it never trips
 * (Infinity); beyond the last the time of the last.
 */
export function tripTime_s({ ratios, times_s }: TripCurve, ratio: number): number {
  if (!(ratio >= ratios[0]!)) return Number.POSITIVE_INFINITY;
  const next = ratios.findIndex((r) => r > ratio);
  if (next < 0) return times_s.at(-1)!;
  const [r0, r1, t0, t1] = [ratios[next - 1]!, ratios[next]!, times_s[next - 1]!, times_s[next]!];
  if (ratio === r0) return t0;
  const along = logarithm(ratio / r0) / logarithm(r1 / r0);
  return t0 * exponential(along * logarithm(t1 / t0));
}

/** Currents over rating at which stays are kept: the points, and others between them whose times lie no further apart. */
export function levelsOfCurve({ ratios, times_s }: TripCurve): number[] {
  return ratios.flatMap((r0, k) => {
    const r1 = ratios[k + 1];
    if (r1 === undefined) return [r0];
    const count = Math.ceil(logarithm(times_s[k]! / times_s[k + 1]!) / logarithm(apart_ratio));
    const step = logarithm(r1 / r0) / count;
    return Array.from({ length: count }, (_, j) => (j === 0 ? r0 : r0 * exponential(j * step)));
  });
}
