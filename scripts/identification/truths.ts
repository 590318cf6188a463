import { readQuantity } from '../../src/base/quantity.ts';
import { adjustedOf } from '../../src/studies/fit/adjusted.ts';
import type { IdentificationBench } from './benches.ts';
import { benchWith } from './simulated.ts';

/** What the bench's own parameters truly are there, in SI. */
export function truthsOf(bench: IdentificationBench): { readonly path: string; readonly value: number }[] {
  const paths = bench.truth.map(({ path }) => path);
  return adjustedOf(paths, benchWith(bench, [])).map(({ path, dimension }, k) => {
    const read = readQuantity(bench.truth[k]!.value, dimension);
    if (!read.ok) throw new RangeError(`${path}: ${bench.truth[k]!.value} is no ${dimension}`);
    return { path, value: read.value };
  });
}
