import { roundingOf } from '../../measured/rounding.ts';
import type { Whiteness } from '../../measured/whiteness.ts';
import type { Residuals } from './residuals.ts';

export interface LeftAtBest {
  readonly sum: number;
  readonly freedom: number;
  readonly whiteness: readonly Whiteness[];
}

/**
 * Variance of an independent residual, s²: that of the residuals, which a fit to rounded values may bend below what
 * rounding makes, q²/12, and which counts as often as they are alike (their memory).
 */
export function independentVariance(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  { sum, freedom, whiteness }: LeftAtBest,
): number {
  let rounding = 0;
  noise.forEach((deviation, c) => {
    const values = Float64Array.from(points.flatMap(({ channel, value }) => (channel === c ? [value] : [])));
    rounding += (values.length * (roundingOf(values).step / deviation) ** 2) / 12;
  });
  const memory = Math.max(1, ...whiteness.map((w) => w.memory));
  return memory * Math.max(sum / freedom, rounding / points.length);
}
