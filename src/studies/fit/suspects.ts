import type { Matrix } from 'ml-matrix';
import type { Adjusted } from './adjusted.ts';
import { beyondFitted } from './beyond-fitted.ts';
import { perFreedom } from './freedom.ts';
import { sumOf } from './residuals.ts';

/** A parameter that was not fitted and would explain a part of what is left. */
export interface Suspect {
  readonly kind: 'parameter';
  readonly path: string;
  /** Of the sum of squares, what would be left if it were adjusted, to first order. */
  readonly leaves_ratio: number;
}

/** Step of its range by which a suspect is tried. */
const step = 0.1;

/**
 * What would explain a misfit: each parameter is moved once, and what its effect has in common with the rest, beyond
 * what the fitted parameters could do themselves, is the part it would take away.
 */
export async function suspectsOf(
  candidates: readonly Adjusted[],
  left: Float64Array,
  fitted: Matrix,
  leftWith: (candidate: Adjusted, value: number) => Promise<Float64Array>,
): Promise<Suspect[]> {
  const all = sumOf(left);
  const suspects: Suspect[] = [];
  for (const candidate of candidates) {
    const { path, start, low, high } = candidate;
    const away = (start - low) / (high - low) < 0.5 ? step : -step;
    const moved = await leftWith(candidate, start + away * (high - low));
    const own = beyondFitted(
      moved.map((e, i) => e - left[i]!),
      fitted,
    );
    const size = sumOf(own);
    const shared = own.reduce((sum, e, i) => sum + e * left[i]!, 0);
    // A part of another kind than its model lies beyond its range: how far it moves is not bounded.
    const taken = size > 1e-9 * left.length ? shared ** 2 / size : 0;
    const leaves_ratio = (all - taken + perFreedom(left.length)) / all;
    suspects.push({ kind: 'parameter', path, leaves_ratio });
  }
  return suspects;
}
