/**
 * Harmonic balance of a loop with one element: sines A at ω with N(A, B) L(jω) = −1, and means with
 * B − u = H(0)(M(A, B) − B): how the rest of the loop, which wants to rest at u, answers to what the element gives in the mean
 * beyond what it is given. N has no phase, so ω is where L crosses the negative real axis, and A where N = 1/|L|.
 *
 * A cycle is stable where a larger swing, which changes N, dies away, and a smaller one grows (J. Loeb 1951, from memory):
 * tried with all eigenvalues of the loop at N a fiftieth below and above, not with the crossing alone.
 */
import { power } from '../../base/power.ts';
import { type Complex, magnitude } from '../complex.ts';
import { type Element, harmonic } from './describing.ts';

/** A loop opened at an element, everything else closed. */
export interface OpenedLoop {
  /** Loop gain at a frequency; what comes back is −L. */
  at(frequency_Hz: number): Complex;
  /** What comes back to the element of a standing unit put in behind it, the element being 1: −1 where the loop integrates. */
  readonly standing: number;
  /** Fastest growth with the element replaced by this gain, below 0 where all dies away [1/s]. */
  growth(gain: number): number;
  /** Sampling period of its law [s]; null for a continuous one. */
  readonly period_s: number | null;
  /** Crossings are looked for at these, ascending. */
  readonly over_Hz: readonly number[];
}

export interface Cycle {
  readonly frequency_Hz: number;
  /** Of the element's input. */
  readonly amplitude: number;
  readonly bias: number;
  readonly gain: number;
  /** Swings near it come to it; otherwise it parts those that die from those that grow. */
  readonly isStable: boolean;
  /** The larger of the second and third harmonic that comes back to the element, over the first. */
  readonly returned_ratio: number;
}

/** How far the gain is moved to see which way swings go. */
const nudge = 0.02;

/** All cycles of a loop whose element rests at `rest` where it acts as 1, as far as 100 times its corners. */
export function cyclesOf(loop: OpenedLoop, element: Element, rest: number): Cycle[] {
  return crossings(loop).flatMap((frequency_Hz) => {
    const L = magnitude(loop.at(frequency_Hz));
    const excess = (A: number): number => element.gain(A, biasAt(loop, element, rest, A)) * L - 1;
    return amplitudes(excess, element.size).map(({ A: amplitude, falls }): Cycle => {
      const bias = biasAt(loop, element, rest, amplitude);
      const gain = 1 / L;
      const isOpen = (n: number): number =>
        (harmonic(element, n, amplitude, bias) * magnitude(loop.at(n * frequency_Hz))) / amplitude;
      const [less, more] = [loop.growth(gain * (1 - nudge)), loop.growth(gain * (1 + nudge))];
      // Slower growth than a thousandth of a cycle's angle is another mode's, and does not show within cycles.
      const slow = 1e-3 * 2 * Math.PI * frequency_Hz;
      return {
        frequency_Hz,
        amplitude,
        bias,
        gain,
        isStable: falls ? less < slow && more > less : more < slow && less > more,
        returned_ratio: Math.max(isOpen(2), isOpen(3)),
      };
    });
  });
}

/** Frequencies at which L is real and negative. */
function crossings({ at, over_Hz }: OpenedLoop): number[] {
  const found: number[] = [];
  let before = at(over_Hz[0]!);
  for (let k = 1; k < over_Hz.length; k++) {
    const here = at(over_Hz[k]!);
    if (before.im > 0 !== here.im > 0 && before.re + here.re < 0) {
      const f = halved((x) => at(x).im, over_Hz[k - 1]!, over_Hz[k]!);
      // Through a pole the sign changes too.
      if (at(f).re < 0 && magnitude(at(f)) < 1e6) found.push(f);
    }
    before = here;
  }
  return found;
}

/** B at amplitude A: the mean balance, whose left side less its right rises with B. */
function biasAt({ standing }: OpenedLoop, element: Element, rest: number, A: number): number {
  const open = (B: number): number => B - rest - standing * (element.mean(A, B) - B);
  const reach = 2 * element.size + A;
  const [low, high] = [rest - reach, rest + reach];
  return open(low) < 0 && open(high) > 0 ? halved(open, low, high) : rest;
}

/** Amplitudes at which `excess` passes 0, and whether it falls there. */
function amplitudes(
  excess: (A: number) => number,
  size: number,
): { readonly A: number; readonly falls: boolean }[] {
  const grid = Array.from({ length: 161 }, (_, k) => size * 1e-2 * power(10, k / 40));
  const found: { A: number; falls: boolean }[] = [];
  let before = excess(grid[0]!);
  for (let k = 1; k < grid.length; k++) {
    const here = excess(grid[k]!);
    if (before > 0 !== here > 0)
      found.push({
        A: halved(excess, grid[k - 1]!, grid[k]!),
        falls: before > 0,
      });
    before = here;
  }
  return found;
}

/** Where a function changes sign between two places. */
function halved(of: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  const isAbove = of(a) > 0;
  for (let k = 0; k < 50; k++) {
    const middle = (a + b) / 2;
    if (of(middle) > 0 === isAbove) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
