/**
 * How far every loop of a loop gain matrix may change by itself, all at once, each in its own way.
 *
 * Least singular value σ of I + L: each loop's gain may rise to 1/(1 − σ) (N. A. Lehtomaki, N. R. Sandell, M. Athans,
 * IEEE Transactions on Automatic Control 26(1), 1981). Disk α = 1/max σ̄(S − I/2), S = (I + L)⁻¹: each gain may be
 * anywhere from (2 − α)/(2 + α) to (2 + α)/(2 − α), or each phase anywhere within 2 arctan(α/2) (P. Seiler, A. Packard,
 * P. Gahinet, IEEE Control Systems Magazine 40(5), 2020). Loops change one by one, so the matrices may be weighed by any
 * diagonal: `balanced` picks one. Both promise less than the loops can bear, never more.
 */
import { arcTangent } from '../../base/arc-tangent.ts';
import { balanced } from '../balanced.ts';
import { type ComplexMatrix, inverseOf, largestSingularValue, plusIdentity } from '../complex-matrix.ts';
import { ratio_dB } from '../decibels.ts';

/** Least singular value of I + L; for a single loop the distance of its gain from −1. */
export function returnDifference(L: ComplexMatrix): number {
  return 1 / gauge(inverseOf(plusIdentity(L, 1)));
}

/** α at one frequency. */
export function diskRatio(L: ComplexMatrix): number {
  return 1 / gauge(plusIdentity(inverseOf(plusIdentity(L, 1)), -0.5));
}

function gauge(A: ComplexMatrix): number {
  if (A.length === 1) return largestSingularValue(A);
  return Math.min(largestSingularValue(A), largestSingularValue(balanced(A)));
}

/** How far each gain may rise for a least singular value σ [dB]; null: without end. */
export function gainOfClearance_dB(sigma: number): number | null {
  return sigma < 1 ? -ratio_dB(1 - sigma) : null;
}

/** How far each gain may rise or fall for a disk α [dB]; null: without end. */
export function gainOfDisk_dB(alpha: number): number | null {
  return alpha < 2 ? ratio_dB((2 + alpha) / (2 - alpha)) : null;
}

/** How far each phase may turn for a disk α [°]. */
export function phaseOfDisk_deg(alpha: number): number {
  return (2 * arcTangent(alpha, 2) * 180) / Math.PI;
}
