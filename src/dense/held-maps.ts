/** Maps that many vectors are carried through, held in the compiled form's memory meanwhile. */
import { compiled } from './compiled.ts';
import { apply } from './products.ts';

/** y = a x for a (rows × columns) and as many of x as a has columns. */
export type Apply = (
  y: Float64Array,
  a: Float64Array,
  x: Float64Array,
  rows: number,
  columns: number,
) => void;

/** Numbers that two vectors of a map take at most. */
const vectors = 2;

/** `work` applies these maps, and no others. */
export function holdingMaps<T>(maps: ReadonlySet<Float64Array>, work: (apply: Apply) => T): T {
  const fast = compiled();
  if (fast === null) return work(apply);
  const room = [...maps].reduce((sum, { length }) => sum + length, 0);
  const widest = Math.max(0, ...[...maps].map(({ length }) => length));
  return fast.holding(room + vectors * widest, (from) => {
    const address = new Map<Float64Array, number>();
    let next = from;
    for (const map of maps) {
      fast.write(map, next);
      address.set(map, next);
      next += 8 * map.length;
    }
    return work((y, a, x, rows, columns) => {
      const at = address.get(a)!;
      fast.write(x.subarray(0, columns), next);
      fast.call.apply(next + 8 * columns, at, next, rows, columns);
      fast.takeBack(y.subarray(0, rows), next + 8 * columns);
    });
  });
}
