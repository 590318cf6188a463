/**
 * The transform of real samples. An even count N of them is half as many complex ones, z[m] = x[2m] + i x[2m+1], as they lie
 * side by side in a column:
 *
 *   X[k] = E + e^(−2πi k/N) O,   E = (Z[k] + conj Z[N/2 − k])/2,   O = (Z[k] − conj Z[N/2 − k])/2i
 */
import { type ComplexPairs, complexOf, transformInto } from './fourier.ts';
import { turnsOf } from './turns.ts';

/** Transforms columns of one length, in memory of its own. */
export class RealTransform {
  private readonly count: number;
  private readonly Z: ComplexPairs;
  private readonly X: ComplexPairs;
  private readonly turns: ComplexPairs | null;

  constructor(count: number) {
    this.count = count;
    const isEven = count % 2 === 0;
    this.Z = new Float64Array(isEven ? count : 0);
    this.X = new Float64Array(isEven ? count + 2 : 2 * count);
    this.turns = isEven ? turnsOf(count, Math.ceil(count / 4)) : null;
  }

  /** Bins up to half the rate, it included; written over by the next. */
  of(x: Float64Array): ComplexPairs {
    const { count, Z, X, turns } = this;
    if (turns === null) {
      transformInto(X, complexOf(x));
      return X;
    }
    transformInto(Z, x);
    const half = count / 2;
    for (let k = 0; 2 * k <= half; k++) {
      const other = k === 0 ? 0 : half - k;
      const ar = Z[2 * k]!;
      const ai = Z[2 * k + 1]!;
      const br = Z[2 * other]!;
      const bi = Z[2 * other + 1]!;
      const c = turns[2 * k]!;
      const s = turns[2 * k + 1]!;
      const er = (ar + br) / 2;
      const ei = (ai - bi) / 2;
      const or = (ai + bi) / 2;
      const oi = (br - ar) / 2;
      const tr = or * c + oi * s;
      const ti = oi * c - or * s;
      X[2 * k] = er + tr;
      X[2 * k + 1] = ei + ti;
      X[2 * (half - k)] = er - tr;
      X[2 * (half - k) + 1] = ti - ei;
    }
    return X;
  }
}
