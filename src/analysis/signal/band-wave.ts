/**
 * What bins of a spectrum are as a wave. A real wave w of N points is a complex one of half as many, z[m] = w[2m] + i w[2m+1]:
 *
 *   w[j] = Σ C_k e^(2πi kj/N) + conj,   Z[k] = C_k (1 + i t_k),   Z[N/2 − k] = conj(C_k) (1 + i conj(t_k)),   t_k = e^(2πi k/N)
 */
import type { ComplexPairs } from './fourier.ts';
import { planOf } from './plans.ts';
import { turnsOf } from './turns.ts';

/** A wave is drawn so many points to a cycle of its highest bin, at least. */
export const pointsPerCycle = 16;

/** Room for waves of one length, and t_k of its bins. */
interface Grid {
  /** Points of a wave. */
  readonly count: number;
  /** Of half as many complex values: a large one goes with the room. */
  readonly plan: ReturnType<typeof planOf>;
  readonly Z: ComplexPairs;
  readonly z: ComplexPairs;
  /** t_k up to the highest bin, cosine and sine side by side. */
  readonly turns: ComplexPairs;
}

/** Waves of the pieces of a stretch, in room that they share. */
export class BandWaves {
  private readonly grids: Map<number, Grid> = new Map();

  /** Of bins first … last of the transform X of n samples: a wave that goes round, in pairs of w and −w. */
  wave(X: ComplexPairs, n: number, first: number, last: number): ComplexPairs {
    const { count, plan, Z, z, turns } = this.gridFor(last);
    Z.fill(0);
    for (let k = first; k <= last; k++) {
      const a = X[2 * k]! / n;
      const b = X[2 * k + 1]! / n;
      const c = turns[2 * k]!;
      const s = turns[2 * k + 1]!;
      // Turned over, so that the transform is the inverse one.
      Z[2 * k] = a * (1 - s) - b * c;
      Z[2 * k + 1] = -(a * c + b * (1 - s));
      Z[count - 2 * k] = a * (1 + s) + b * c;
      Z[count - 2 * k + 1] = b * (1 + s) - a * c;
    }
    plan.transform(z, Z);
    return z;
  }

  private gridFor(last: number): Grid {
    let count = 8;
    while (count < pointsPerCycle * last) count *= 2;
    const known = this.grids.get(count);
    if (known !== undefined) return known;
    const grid = {
      count,
      plan: planOf(count / 2),
      Z: new Float64Array(count),
      z: new Float64Array(count),
      turns: turnsOf(count, count / pointsPerCycle),
    };
    this.grids.set(count, grid);
    return grid;
  }
}
