/** Stretches of the stamps that never fall: [from, to) each, in the order they stand. */
export function risingRuns(time_s: Float64Array): { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = [];
  let from = 0;
  for (let i = 1; i <= time_s.length; i++) {
    if (i < time_s.length && time_s[i]! >= time_s[i - 1]!) continue;
    runs.push({ from, to: i });
    from = i;
  }
  return runs;
}

/** Indices by rising stamp, equal stamps in the order they stand: rising runs are merged two by two. */
export function sortedOrder(time_s: Float64Array): Uint32Array {
  const n = time_s.length;
  let order = new Uint32Array(n);
  for (let i = 0; i < n; i++) order[i] = i;
  let runs = risingRuns(time_s);
  if (runs.length < 2) return order;
  let other = new Uint32Array(n);
  while (runs.length > 1) {
    const next: { from: number; to: number }[] = [];
    for (let r = 0; r < runs.length; r += 2) {
      const a = runs[r]!;
      const b = runs[r + 1] ?? { from: a.to, to: a.to };
      let i = a.from;
      let j = b.from;
      for (let k = a.from; k < b.to; k++) {
        const left = j >= b.to || (i < a.to && time_s[order[i]!]! <= time_s[order[j]!]!);
        other[k] = left ? order[i++]! : order[j++]!;
      }
      next.push({ from: a.from, to: b.to });
    }
    [order, other] = [other, order];
    runs = next;
  }
  return order;
}

/** Puts a column into the order given. */
export function reordered(column: Float64Array, order: Uint32Array): Float64Array {
  const out = new Float64Array(column.length);
  for (let i = 0; i < out.length; i++) out[i] = column[order[i]!]!;
  return out;
}
