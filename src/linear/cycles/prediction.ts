/** What is said of a loop's cycles: one that exists and whose harmonics are filtered, or why nothing is. */
import type { Cycle, OpenedLoop } from './balance.ts';
import { cyclesOf } from './balance.ts';
import type { Element } from './describing.ts';

/** `cycle`: it swings for ever. `edge`: smaller swings die away, larger ones grow until something else holds them. */
export type Prediction =
  | {
      readonly kind: 'cycle' | 'edge';
      readonly cycle: Cycle;
      readonly why: null;
    }
  | { readonly kind: 'none'; readonly cycle: null; readonly why: string };

/** Of the first harmonic may come back of a higher one. Common practice, no source. */
export const mostReturned_ratio = 0.2;

/**
 * Samplings that a cycle of a sampled law spans at least. It sits on whole samples: each half may be one longer or shorter,
 * which is 15 % of 14.
 */
export const leastSamples = 14;

export function predict(loop: OpenedLoop, element: Element, rest = 0): Prediction {
  const cycles = cyclesOf(loop, element, rest);
  const stable = cycles.filter(({ isStable }) => isStable);
  const chosen = stable.length > 0 ? stable : cycles;
  if (chosen.length === 0) return none('no cycle balances');
  if (chosen.length > 1) return none(`${chosen.length} cycles balance`);
  const [cycle] = chosen;
  const { frequency_Hz, returned_ratio } = cycle!;
  const samples = loop.period_s === null ? Number.POSITIVE_INFINITY : 1 / (frequency_Hz * loop.period_s);
  if (samples < leastSamples)
    return none(`sampled too coarsely: the cycle would span ${samples.toFixed(1)} samples`);
  if (returned_ratio > mostReturned_ratio)
    return none(`harmonics are not filtered: ${(100 * returned_ratio).toFixed(0)} % of the first come back`);
  if (stable.length === 1) return { kind: 'cycle', cycle: cycle!, why: null };
  // It parts what dies from what grows only where small swings die away.
  if (loop.growth(element.gain(1e-2 * element.size, rest)) > 1e-3 * 2 * Math.PI * frequency_Hz)
    return none('the cabinet is unstable beside it');
  return { kind: 'edge', cycle: cycle!, why: null };
}

export function none(why: string): Prediction {
  return { kind: 'none', cycle: null, why };
}
