import type { Matrix } from 'ml-matrix';
import type { Adjusted } from './adjusted.ts';
import { followedBy } from './beyond-fitted.ts';

/** A parameter that was not fitted and that a found value rests on: no residual shows an error that does as a fitted one does. */
export interface RestsOn {
  readonly path: string;
  /** End of its range that moves most. */
  readonly at: number;
  /** How far found values would lie elsewhere if it were there, by path; those that leave their interval. */
  readonly moves: Readonly<Record<string, number>>;
}

export interface FoundValues {
  readonly adjusted: readonly Adjusted[];
  /** Half widths of the intervals, of each box; null where there is none. */
  readonly halfWidths: readonly (number | null)[];
  readonly left: Float64Array;
  readonly sensitivities: Matrix;
}

/**
 * Which found values hang on parameters that were kept: each of these is moved to the ends of its own range, and what
 * the fitted parameters would do to undo it, (JᵀJ)⁻¹Jᵀ Δe, is compared with their intervals. To first order.
 */
export async function restsOn(
  { adjusted, halfWidths, left, sensitivities }: FoundValues,
  candidates: readonly Adjusted[],
  leftWith: (candidate: Adjusted, value: number) => Promise<Float64Array>,
): Promise<RestsOn[]> {
  const found: RestsOn[] = [];
  for (const candidate of candidates) {
    let worst: (RestsOn & { readonly by: number }) | null = null;
    for (const at of [candidate.low, candidate.high]) {
      if (at === candidate.start) continue;
      const moved = await leftWith(candidate, at);
      const shifts = followedBy(
        moved.map((e, i) => e - left[i]!),
        sensitivities,
      );
      const beyond = adjusted.flatMap(({ path, low, high }, j) => {
        const half = halfWidths[j] ?? null;
        const shift = shifts[j]!;
        return half !== null && Math.abs(shift) > half
          ? [{ path, moves: shift * (high - low), by: Math.abs(shift) / half }]
          : [];
      });
      const by = Math.max(0, ...beyond.map((b) => b.by));
      if (by <= (worst?.by ?? 0)) continue;
      const moves = Object.fromEntries(beyond.map((b) => [b.path, b.moves]));
      worst = { path: candidate.path, at, moves, by };
    }
    if (worst !== null) found.push({ path: worst.path, at: worst.at, moves: worst.moves });
  }
  return found;
}
