/** Where waves stand on their way round: e^(2πi k/N). */
import { cosineOfTurns, sine } from '../../base/sine.ts';
import type { ComplexPairs } from './fourier.ts';

/** Of the lengths met last: stretches of one run are alike. Longer ones are made anew, for memory. */
const kept: Map<string, ComplexPairs> = new Map();
const mostKept = 8;
const longestKept = 2 ** 17;

/** For k from 0 up to `bins`, it included; cosine and sine side by side. */
export function turnsOf(N: number, bins: number): ComplexPairs {
  const name = `${bins} of ${N}`;
  const known = kept.get(name);
  if (known !== undefined) return known;
  const turns = new Float64Array(2 * (bins + 1));
  for (let k = 0; k <= bins; k++) {
    turns[2 * k] = cosineOfTurns(k / N);
    turns[2 * k + 1] = sine((2 * Math.PI * k) / N);
  }
  if (N > longestKept) return turns;
  const [oldest] = kept.keys();
  if (kept.size === mostKept && oldest !== undefined) kept.delete(oldest);
  kept.set(name, turns);
  return turns;
}
