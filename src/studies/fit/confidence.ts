import { inverse, Matrix, SingularValueDecomposition } from 'ml-matrix';

export interface Confidence {
  /** Half width of the 95 % interval of each value, of its box; null where the data do not bound it. */
  readonly halfWidths: readonly (number | null)[];
  /** Row j: how all values change, the others following as well as they can, when value j changes by 1. */
  readonly following: readonly (readonly number[])[];
  /** Correlation of the found values, by pairs; null where one of them is not bounded. */
  readonly correlation: readonly (readonly (number | null)[])[];
  /** Parameters that only a combination is known of: changes of one undo those of the others. */
  readonly together: readonly (readonly number[])[];
  /** Parameters that the measurement does not depend on. */
  readonly withoutEffect: readonly number[];
  /** Largest over smallest singular value of the sensitivities, each parameter's scaled to length 1. */
  readonly condition: number;
}

/** Combinations whose singular value lies this far below the largest cannot be told apart. */
const leastRatio = 0.05;
/** Part in such a combination from which a parameter belongs to it. */
const leastPart = 0.25;
/** A parameter whose whole box moves the residuals by less than this, in RMS of the noise, has no effect. */
const leastEffect = 0.02;

/**
 * Intervals from the sensitivities at the optimum: covariance s²(JᵀJ)⁻¹ and Student's factor for 95 %; `variance` s² of
 * an independent residual. Valid where the model is nearly linear over the interval. Parameters that cannot be told
 * apart, or have no effect, get none.
 */
export function confidenceOf(J: Matrix, variance: number): Confidence {
  const [rows, count] = [J.rows, J.columns];
  const lengths = Array.from({ length: count }, (_, j) => lengthOf(J, j));
  const withoutEffect = lengths.flatMap((length, j) => (length / Math.sqrt(rows) < leastEffect ? [j] : []));
  const kept = lengths.flatMap((_, j) => (withoutEffect.includes(j) ? [] : [j]));
  const none = {
    halfWidths: lengths.map(() => null),
    following: lengths.map(() => lengths.map(() => 0)),
    correlation: lengths.map(() => lengths.map(() => null)),
  };
  if (kept.length === 0) return { ...none, together: [], withoutEffect, condition: Number.POSITIVE_INFINITY };

  const scaled = new Matrix(rows, kept.length);
  kept.forEach((j, c) => {
    for (let i = 0; i < rows; i++) scaled.set(i, c, J.get(i, j) / lengths[j]!);
  });
  const svd = new SingularValueDecomposition(scaled, { autoTranspose: true });
  const [values, V] = [svd.diagonal, svd.rightSingularVectors];
  const largest = Math.max(...values);
  const together = values.flatMap((value, k) => {
    if (value > leastRatio * largest) return [];
    const parts = kept.filter((_, c) => Math.abs(V.get(c, k)) > leastPart);
    return parts.length > 1 ? [parts] : [];
  });
  const unbound = new Set([...withoutEffect, ...together.flat()]);
  const free = kept.filter((j) => !unbound.has(j));
  const covariance = free.length === 0 ? null : inverse(normal(J, free), true);
  const factor = studentFactor(Math.max(1, rows - count));
  const placeOf = (j: number): number => free.indexOf(j);
  const at = (a: number, b: number): number => covariance!.get(placeOf(a), placeOf(b));
  return {
    halfWidths: lengths.map((_, j) => (unbound.has(j) ? null : factor * Math.sqrt(variance * at(j, j)))),
    following: lengths.map((_, a) =>
      lengths.map((__, b) => (unbound.has(a) || unbound.has(b) ? 0 : at(b, a) / at(a, a))),
    ),
    correlation: lengths.map((_, a) =>
      lengths.map((__, b) =>
        unbound.has(a) || unbound.has(b) ? null : at(a, b) / Math.sqrt(at(a, a) * at(b, b)),
      ),
    ),
    together,
    withoutEffect,
    condition: largest / Math.min(...values),
  };
}

/** JᵀJ of some columns. */
function normal(J: Matrix, columns: number[]): Matrix {
  const part = J.subMatrixColumn(columns);
  return part.transpose().mmul(part);
}

function lengthOf(J: Matrix, j: number): number {
  let sum = 0;
  for (let i = 0; i < J.rows; i++) sum += J.get(i, j) * J.get(i, j);
  return Math.sqrt(sum);
}

/**
 * Two-sided 95 % point of Student's distribution, by the expansion of Cornish and Fisher about 1.96 (Abramowitz and
 * Stegun 26.7.5): within 0.01 from five degrees of freedom on.
 */
export function studentFactor(freedom: number): number {
  const z = 1.959964;
  const a = (z ** 3 + z) / 4;
  const b = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const c = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  return z + a / freedom + b / freedom ** 2 + c / freedom ** 3;
}
