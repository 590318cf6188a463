/** Whether a stretch of samples that comes twice says more than chance, or a cycle of the load, would repeat. */
import { logarithm } from '../../base/logarithm.ts';
import { smooth_ratio, TurnCount } from './equal-runs.ts';
import { hashOf } from './value-hash.ts';

/** A stretch [from, to) that also stands `shift` samples earlier. */
export interface Repeat {
  readonly from: number;
  readonly to: number;
  readonly shift: number;
}

/** Whether a stretch says more than chance repeats [bit]: of each change half of what its value says, each cycle once. */
export function isTelling(values: Float64Array, { from, to, shift }: Repeat, counts: Uint32Array): boolean {
  const least_bits = 20 + 2 * bits(values.length);
  let sum_bits = 0;
  const once = Math.min(shift, ownPeriod(values, from, to));
  for (let i = Math.max(from, to - once) + 1; i < to && sum_bits < least_bits; i++)
    if (values[i] !== values[i - 1])
      sum_bits += 0.5 * Math.min(8, bits(values.length / counts[placeOf(values[i]!)]!));
  return sum_bits >= least_bits;
}

/** Samples of a stretch that are looked at for a shorter cycle in it. */
const longestCycle = 4096;

/**
 * Samples after which the beginning of a stretch repeats within itself, by its longest border (Knuth, Morris and Pratt
 * 1977); the length of the stretch where it does not repeat twice.
 */
function ownPeriod(values: Float64Array, from: number, to: number): number {
  const n = Math.min(longestCycle, to - from);
  const border = new Int32Array(n);
  let length = 0;
  for (let i = 1; i < n; i++) {
    while (length > 0 && values[from + i] !== values[from + length]) length = border[length - 1]!;
    if (values[from + i] === values[from + length]) length++;
    border[i] = length;
  }
  const period = n - length;
  return 2 * period <= n ? period : to - from;
}

/** Whether it moves as noise does: a clean curve may well come again. */
export function turns(values: Float64Array, { from, to }: Repeat): boolean {
  const count = new TurnCount();
  for (let i = from + 1; i < to; i++) count.meet(values[i]! - values[i - 1]!);
  const { changes, turn_ratio } = count.unrest(to - from);
  return changes > 0 && turn_ratio >= smooth_ratio;
}

/** How often each value comes; values of one place are counted as one, which says less of each. */
export function countsOf(values: Float64Array): Uint32Array {
  const counts = new Uint32Array(1 << 16);
  for (let i = 0; i < values.length; i++) counts[placeOf(values[i]!)]!++;
  return counts;
}

function placeOf(value: number): number {
  const hash = hashOf(value);
  return (hash ^ (hash >>> 16)) & 0xffff;
}

function bits(ratio: number): number {
  return logarithm(ratio) / logarithm(2);
}
