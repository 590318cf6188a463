/**
 * The eigenvalues of a loop gain matrix over frequency, followed from point to point: its characteristic loci.
 * Closed at k times its gain the loop has a mode on the imaginary axis at jω where an eigenvalue of L(jω) is −1/k.
 * Source: A. G. J. MacFarlane, I. Postlethwaite, International Journal of Control 25(1), 1977 (generalised Nyquist
 * criterion).
 */
import { type Complex, magnitude, subtract } from '../complex.ts';

export interface LociPoint {
  readonly frequency_Hz: number;
  /** The k-th belongs to the k-th of the point before. */
  readonly values: readonly Complex[];
}

/** Eigenvalues at a frequency, in any order. */
export type LociAt = (frequency_Hz: number) => readonly Complex[];

/** A locus that moves by more than this share of its size from point to point is looked at between them. */
const coarse = 0.3;
/** Smaller than this it comes near no −1/k that is asked for. */
const small = 0.02;
/** Most halvings of the distance between two points of the grid. */
const deepest = 7;

/** Loci through a grid of ascending frequencies, with points between where they move fast. */
export function traceLoci(at: LociAt, grid: readonly number[]): LociPoint[] {
  const first = { frequency_Hz: grid[0]!, values: at(grid[0]!) };
  const points: LociPoint[] = [first];
  const advance = (frequency_Hz: number, depth: number): void => {
    const before = points.at(-1)!;
    const point = { frequency_Hz, values: inOrderOf(before.values, at(frequency_Hz)) };
    if (depth > 0 && isCoarse(before.values, point.values)) {
      advance(Math.sqrt(before.frequency_Hz * frequency_Hz), depth - 1);
      advance(frequency_Hz, depth - 1);
    } else points.push(point);
  };
  for (const frequency_Hz of grid.slice(1)) advance(frequency_Hz, deepest);
  return points;
}

function isCoarse(before: readonly Complex[], after: readonly Complex[]): boolean {
  return before.some((a, k) => {
    const b = after[k]!;
    const size = Math.max(magnitude(a), magnitude(b));
    return size > small && magnitude(subtract(b, a)) > coarse * size;
  });
}

/** The values in the order of those that each lies nearest to, the nearest pairs first. */
export function inOrderOf(before: readonly Complex[], values: readonly Complex[]): Complex[] {
  if (values.length === 1) return [...values];
  const pairs = before
    .flatMap((a, k) => values.map((b, j) => ({ k, j, d: magnitude(subtract(b, a)) })))
    .sort((x, y) => x.d - y.d);
  const out: (Complex | undefined)[] = before.map(() => undefined);
  const taken = new Set<number>();
  for (const { k, j } of pairs) {
    if (out[k] !== undefined || taken.has(j)) continue;
    out[k] = values[j]!;
    taken.add(j);
  }
  return out as Complex[];
}
