/** Two channels that are one: the same samples, or the same times a factor. */

import { medianOf } from '../quantile.ts';
import { rangeOf } from '../range.ts';
import type { Sampled, Sign } from './sign.ts';
import { smallestStep } from './smallest-step.ts';
import { covariances, type Together } from './together.ts';

/** Two sensors never agree to this share of their variance: even a single bit of rounding of theirs is more. */
const unlike_ratio = 1e-6;
/** And move alike in every sample: one far value that both have, or two slow curves of which one is late, make no twins. */
const unlikeMoves_ratio = 0.1;

/** Steps that a rounded channel moves by at least, and how far it lies off, rounding of the file aside. */
const fewestSteps = 5;
const half = 0.5 + 1e-6;

export function twins(channels: readonly Sampled[], { columns }: Together): Sign[] {
  const products = covariances(columns);
  const steps = channels.map(({ values }) => smallestStep(values));
  return channels.flatMap((two, k) => {
    const j = channels.findIndex(
      (_, i) =>
        i < k &&
        (isRounded(channels[i]!, two, steps[k]!) ||
          isRounded(two, channels[i]!, steps[i]!) ||
          (isOne(products, i, k) && moveAlike(columns[i]!, columns[k]!))),
    );
    const one = channels[j];
    if (one === undefined) return [];
    const gain = products[j]![k]! / products[j]![j]!;
    const same = sameValues(one.values, two.values);
    return [
      {
        kind: 'twin',
        channel: two.name,
        from_s: two.time_s[0]!,
        to_s: two.time_s[two.time_s.length - 1]!,
        shows: same
          ? `${two.name} repeats ${one.name} in all ${two.values.length} samples`
          : `${two.name} follows ${one.name} exactly, at ${Number(gain.toPrecision(4))} times its changes`,
        asks: same
          ? 'one sensor counted twice, or two loads that one number was split for?'
          : 'is the one worked out from the other, and counted twice?',
      },
    ];
  });
}

function isOne(products: readonly Float64Array[], j: number, k: number): boolean {
  const [a, b, both] = [products[j]![j]!, products[k]![k]!, products[j]![k]!];
  return both > 0 && both * both > (1 - unlike_ratio) * a * b;
}

function moveAlike(a: Float64Array, b: Float64Array): boolean {
  const n = a.length - 1;
  const moveOf = (x: Float64Array, i: number): number => x[i + 1]! - x[i]!;
  const [sizeA, sizeB] = [a, b].map((x) => medianOf(n, (i) => Math.abs(moveOf(x, i))));
  if (!(sizeA! > 0) || !(sizeB! > 0)) return true;
  const gain = sizeB! / sizeA!;
  return medianOf(n, (i) => Math.abs(moveOf(b, i) - gain * moveOf(a, i))) <= unlikeMoves_ratio * sizeB!;
}

/** `coarse` is `fine`, rounded to `step`: it never lies further off than half of that, which is small against what it moves. */
function isRounded(fine: Sampled, coarse: Sampled, step: number): boolean {
  const isNear = fine.values.every(
    (value, i) => Math.abs(value - coarse.values[i]!) <= step * half && fine.time_s[i] === coarse.time_s[i],
  );
  if (!isNear || fine.values.length !== coarse.values.length) return false;
  const { lowest, highest } = rangeOf(coarse.values);
  return highest - lowest > fewestSteps * step;
}

function sameValues(a: Float64Array, b: Float64Array): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}
