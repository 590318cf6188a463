/** Stretches of a run kept step by step, made of the leaves that were kept. */
import type { CloseUp } from '../result.ts';
import { columnsOf } from './columns.ts';
import type { KeptLeaf } from './kept-leaves.ts';

/** Leaves that follow each other become one stretch. `leaves` in time order. */
export function closeUpsOf(
  leaves: readonly KeptLeaf[],
  channelCount: number,
  tick_s: number,
): readonly CloseUp[] {
  const stretches: KeptLeaf[][] = [];
  for (const kept of leaves) {
    const last = stretches.at(-1);
    if (last?.at(-1)?.leaf === kept.leaf - 1) last.push(kept);
    else stretches.push([kept]);
  }
  return stretches.map((stretch) => closeUp(stretch, channelCount, tick_s));
}

/**
 * The beginning of the first leaf, then the end of every step. Its columns are made when somebody first asks for them: who
 * judges a run never does.
 */
function closeUp(stretch: readonly KeptLeaf[], channelCount: number, tick_s: number): CloseUp {
  const time_s = timesOf(stretch, tick_s);
  let values: readonly Float32Array[] | null = null;
  return {
    time_s,
    get values() {
      values ??= valuesOf(stretch, channelCount, time_s.length);
      return values;
    },
  };
}

function timesOf(stretch: readonly KeptLeaf[], tick_s: number): Float64Array {
  const time_s = new Float64Array(stretch.reduce((sum, { steps }) => sum + steps, 1));
  let at = 0;
  stretch.forEach(({ steps, ticks }, k) => {
    for (let row = k === 0 ? 0 : 1; row <= steps; row++) time_s[at++] = ticks[row]! * tick_s;
  });
  return time_s;
}

function valuesOf(stretch: readonly KeptLeaf[], channelCount: number, count: number): Float32Array[] {
  const values = columnsOf(channelCount, count);
  let at = 0;
  stretch.forEach(({ steps, rows }, k) => {
    const first = k === 0 ? 0 : 1;
    for (let c = 0; c < channelCount; c++) {
      const column = values[c]!;
      for (let row = first; row <= steps; row++) column[at + row - first] = rows[row * channelCount + c]!;
    }
    at += steps + 1 - first;
  });
  return values;
}
