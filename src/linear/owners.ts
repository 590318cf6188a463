/**
 * Who owns a mode: participation of each state, the diagonal of the mode's spectral projector. Right and left
 * vectors come from inverse iteration; modes that coincide (like units) share one projector, which is well
 * defined where single vectors are not.
 * Reference: I. J. Pérez-Arriaga, G. C. Verghese, F. C. Schweppe, IEEE Trans. Power Apparatus and Systems
 * PAS-101(9), 1982 (participation factors).
 */
import type { Complex } from './complex.ts';
import { inverseOf } from './complex-matrix.ts';
import type { Hessenberg } from './hessenberg.ts';

export interface Owner {
  readonly name: string;
  /** Share of the mode, 0 to 1. */
  readonly share_ratio: number;
}

interface Vector {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Shares below this are left out of a list of owners. */
const least_ratio = 0.02;

const mostOwners = 6;

/** Vectors that span the eigenspace of `count` coinciding eigenvalues at s. */
function space(h: Hessenberg, s: Complex, count: number): Vector[] {
  const n = h.n;
  const size = Math.max(1e-3, Math.hypot(s.re, s.im));
  const near = { re: s.re + 1e-9 * size, im: s.im + 1e-9 * size };
  let seed = 1;
  const next = (): number => {
    seed = (seed * 48271) % 2147483647;
    return seed / 2147483647 - 0.5;
  };
  const vectors = Array.from({ length: count }, () => ({
    re: Float64Array.from({ length: n }, next),
    im: Float64Array.from({ length: n }, next),
  }));
  for (let pass = 0; pass < 3; pass++) {
    h.solve(near, vectors);
    for (const v of vectors) {
      let norm = 0;
      for (let k = 0; k < n; k++) norm += v.re[k]! * v.re[k]! + v.im[k]! * v.im[k]!;
      const f = 1 / Math.sqrt(norm);
      for (let k = 0; k < n; k++) {
        v.re[k]! *= f;
        v.im[k]! *= f;
      }
    }
    orthogonal(vectors);
  }
  return vectors.map((v) => ({ re: h.back(v.re), im: h.back(v.im) }));
}

/** Gram-Schmidt, or vectors of one space would all turn into the same. */
function orthogonal(vectors: readonly Vector[]): void {
  vectors.forEach((v, k) => {
    for (let pass = 0; pass < 2; pass++) {
      for (const w of vectors.slice(0, k)) {
        let [re, im] = [0, 0];
        for (let i = 0; i < v.re.length; i++) {
          re += w.re[i]! * v.re[i]! + w.im[i]! * v.im[i]!;
          im += w.re[i]! * v.im[i]! - w.im[i]! * v.re[i]!;
        }
        for (let i = 0; i < v.re.length; i++) {
          v.re[i]! -= re * w.re[i]! - im * w.im[i]!;
          v.im[i]! -= re * w.im[i]! + im * w.re[i]!;
        }
      }
    }
    let norm = 0;
    for (let i = 0; i < v.re.length; i++) norm += v.re[i]! * v.re[i]! + v.im[i]! * v.im[i]!;
    const f = norm > 0 ? 1 / Math.sqrt(norm) : 0;
    for (let i = 0; i < v.re.length; i++) {
      v.re[i]! *= f;
      v.im[i]! *= f;
    }
  });
}

/**
 * Participation of every state in the mode(s) at s. `of`, `transposed`: Hessenberg forms of A and Aᵀ. Also the
 * first right vector, from which a sampled mode's turns are counted.
 */
export function participation(
  of: Hessenberg,
  transposed: Hessenberg,
  s: Complex,
  count: number,
): { readonly weights: Float64Array; readonly right: Vector } {
  const n = of.n;
  const V = space(of, s, count);
  const W = space(transposed, s, count);
  // G = Wᵀ V (left vectors of A are right vectors of Aᵀ, not conjugated), projector V G⁻¹ Wᵀ.
  const G = W.map((w) => V.map((v) => dot(w, v)));
  const inverse = inverseOf(G);
  const weights = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    let [re, im] = [0, 0];
    for (let a = 0; a < count; a++) {
      for (let b = 0; b < count; b++) {
        const g = inverse[a]![b]!;
        const vr = V[a]!.re[i]! * g.re - V[a]!.im[i]! * g.im;
        const vi = V[a]!.re[i]! * g.im + V[a]!.im[i]! * g.re;
        re += vr * W[b]!.re[i]! - vi * W[b]!.im[i]!;
        im += vr * W[b]!.im[i]! + vi * W[b]!.re[i]!;
      }
    }
    weights[i] = Math.hypot(re, im);
  }
  return { weights, right: V[0]! };
}

function dot(w: Vector, v: Vector): Complex {
  let [re, im] = [0, 0];
  for (let i = 0; i < v.re.length; i++) {
    re += w.re[i]! * v.re[i]! - w.im[i]! * v.im[i]!;
    im += w.re[i]! * v.im[i]! + w.im[i]! * v.re[i]!;
  }
  return { re, im };
}

/** Participations added up by name, the largest first. */
export function ownersOf(weights: Float64Array, labels: readonly string[]): Owner[] {
  const sums = new Map<string, number>();
  let all = 0;
  weights.forEach((weight, k) => {
    sums.set(labels[k]!, (sums.get(labels[k]!) ?? 0) + weight);
    all += weight;
  });
  return [...sums]
    .map(([name, weight]) => ({ name, share_ratio: all > 0 ? weight / all : 0 }))
    .sort((a, b) => b.share_ratio - a.share_ratio)
    .filter(({ share_ratio }, k) => k === 0 || (share_ratio >= least_ratio && k < mostOwners));
}
