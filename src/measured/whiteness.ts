/**
 * Whether what is left of a fit is noise: as large as the column's own, alike from sample to sample, without level
 * over long stretches, and no larger where the curve is steep. Each is tested at one in a thousand.
 */
import { cubeRoot } from '../base/power.ts';
import { isRounding, type Rounding } from './rounding.ts';

/** Normal deviate that one in a thousand exceeds, either way. */
export const seldom = 3.29;
const mostLags = 20;
const blocks = 16;
/** As large as the noise: the estimate of the noise is itself good to some ten per cent. */
export const mostExcess = 1.3;

export interface Whiteness {
  readonly isNoise: boolean;
  /** RMS over the column's own noise. */
  readonly excess_ratio: number;
  /** Samples that one independent value stands for. */
  readonly memory: number;
  /** How it differs from noise, in words; empty where it does not. */
  readonly signs: readonly string[];
}

/**
 * `left`: residuals in the order of time; `rounding`: what that may leave of them; `slope`: their sensitivity to a shift,
 * or null where there is none.
 */
export function whitenessOf(
  left: Float64Array,
  { noise, rounding }: { readonly noise: number; readonly rounding: Rounding },
  slope: Float64Array | null,
): Whiteness {
  const n = left.length;
  const square = left.reduce((sum, e) => sum + e * e, 0) / Math.max(1, n);
  const excess_ratio = Math.sqrt(square) / noise;
  if (Math.sqrt(square) <= rounding.least) return { isNoise: true, excess_ratio, memory: 1, signs: [] };
  const memory = memoryOf(left, square);
  if (isRounding(left, rounding)) return { isNoise: true, excess_ratio, memory, signs: [] };
  const lags = Math.min(mostLags, Math.floor(n / 5));
  const rho = Array.from({ length: lags }, (_, k) => correlationAtLag(left, k + 1, square));
  const signs: string[] = [];
  if (excess_ratio > mostExcess) signs.push(`${Number(excess_ratio.toPrecision(2))} times the noise`);
  const together = n * rho.reduce((sum, r) => sum + r * r, 0);
  if (chiSquareDeviate(together, lags) > seldom) signs.push('alike from sample to sample');
  if (chiSquareDeviate(levels(left) / square, blocks) > seldom)
    signs.push('with a level of its own over long stretches');
  if (slope !== null && atEdges(left, slope, square) > seldom) signs.push('larger on the edges');
  return {
    isNoise: signs.length === 0,
    excess_ratio,
    memory,
    signs,
  };
}

function correlationAtLag(e: Float64Array, lag: number, square: number): number {
  let sum = 0;
  for (let i = lag; i < e.length; i++) sum += e[i]! * e[i - lag]!;
  return sum / (e.length * square);
}

/** Samples that one independent value stands for: 1 + 2 Σρ_k up to the first lag without correlation. */
export function memoryOf(e: Float64Array, square: number): number {
  let memory = 1;
  for (let lag = 1; lag < e.length / 4; lag++) {
    const rho = correlationAtLag(e, lag, square);
    if (rho <= 2 / Math.sqrt(e.length)) break;
    memory += 2 * rho;
  }
  return memory;
}

/** Σ length·mean² over blocks: as large as one sample's square for each block, where there is no level. */
function levels(e: Float64Array): number {
  let sum = 0;
  for (let b = 0; b < blocks; b++) {
    const block = e.subarray(Math.round((b * e.length) / blocks), Math.round(((b + 1) * e.length) / blocks));
    if (block.length === 0) continue;
    const total = block.reduce((s, value) => s + value, 0);
    sum += (total * total) / block.length;
  }
  return sum;
}

/** Normal deviate of Σg²e²/Σg² over the mean square: 0 where edges are as well met as the rest. */
function atEdges(e: Float64Array, slope: Float64Array, square: number): number {
  let [g2, g4, ge] = [0, 0, 0];
  for (let i = 0; i < e.length; i++) {
    const g = slope[i]! * slope[i]!;
    g2 += g;
    g4 += g * g;
    ge += g * e[i]! * e[i]!;
  }
  if (!(g2 > 0)) return 0;
  const samples = (g2 * g2) / g4;
  return chiSquareDeviate((samples * ge) / (g2 * square), samples);
}

/** Chi-square as a normal deviate (E. B. Wilson, M. M. Hilferty, Proc. Natl. Acad. Sci. 17(12), 1931). */
export function chiSquareDeviate(value: number, freedom: number): number {
  if (!(freedom > 0)) return 0;
  const spread = 2 / (9 * freedom);
  return (cubeRoot(value / freedom) - 1 + spread) / Math.sqrt(spread);
}
