/**
 * Filters as cascades of second-order sections, by the bilinear transform.
 *
 * A section keeps one frequency exactly where it was (`pin_Hz`): elsewhere f is read as tan(πf/r)/tan(πp/r) p.
 * At 1 kHz and below 40 Hz that is within 0.4 % of f.
 */
import { sine, tangent } from '../../base/sine.ts';
import { filterColumn } from '../../dense/samples.ts';

/** b0 + b1 s + b2 s² over a0 + a1 s + a2 s². */
export interface Analogue {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number, number];
}

/** A section, and the frequency that it keeps. */
export interface Section extends Analogue {
  readonly pin_Hz: number;
}

/** Sections in a row, from a column of samples to the next. */
export class Cascade {
  /** b0, b1, b2, a1, a2 of each, and what each keeps from sample to sample. */
  readonly terms: Float64Array;
  readonly kept: Float64Array;

  constructor(sections: readonly Section[], rate_Hz: number) {
    this.terms = Float64Array.from(sections.flatMap((section) => termsOf(section, rate_Hz)));
    this.kept = new Float64Array(2 * sections.length);
  }

  /** A column in place. */
  run(column: Float64Array): void {
    filterColumn(column, this.terms, this.kept);
  }

  /** At rest on a constant input. */
  rest(x: number): void {
    let y = x;
    for (let k = 0; 2 * k < this.kept.length; k++) {
      const [b0, b1, b2, a1, a2] = [0, 1, 2, 3, 4].map((n) => this.terms[5 * k + n]!) as unknown as Terms;
      const input = y;
      y = (input * (b0 + b1 + b2)) / (1 + a1 + a2);
      this.kept[2 * k + 1] = b2 * input - a2 * y;
      this.kept[2 * k] = b1 * input - a1 * y + this.kept[2 * k + 1]!;
    }
  }
}

/** b0, b1, b2, a1, a2 of the sampled section. */
type Terms = readonly [number, number, number, number, number];

function termsOf({ b, a, pin_Hz }: Section, rate_Hz: number): Terms {
  const w = 2 * Math.PI * pin_Hz;
  const c = w / tangent(w / (2 * rate_Hz));
  const norm = a[0] + a[1] * c + a[2] * c * c;
  return [
    (b[0] + b[1] * c + b[2] * c * c) / norm,
    (2 * b[0] - 2 * b[2] * c * c) / norm,
    (b[0] - b[1] * c + b[2] * c * c) / norm,
    (2 * a[0] - 2 * a[2] * c * c) / norm,
    (a[0] - a[1] * c + a[2] * c * c) / norm,
  ];
}

/** s/(s + ω). */
export function highPass(corner_Hz: number): Analogue {
  return { b: [0, 1, 0], a: [2 * Math.PI * corner_Hz, 1, 0] };
}

/** 1/(1 + s τ). */
export function lag(tau_s: number): Analogue {
  return { b: [1, 0, 0], a: [1, tau_s, 0] };
}

/** Butterworth low-pass of even order as pairs of poles: 1/(1 + 2 sin(θ_k) s/ω + s²/ω²). */
export function butterworth(order: number, corner_Hz: number): Analogue[] {
  const w = 2 * Math.PI * corner_Hz;
  return Array.from({ length: order / 2 }, (_, k) => {
    const damping = 2 * sine((Math.PI * (2 * k + 1)) / (2 * order));
    return { b: [1, 0, 0], a: [1, damping / w, 1 / (w * w)] } as const;
  });
}
