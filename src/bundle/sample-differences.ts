/** Where the two binary files of two bundles differ, bit for bit. Both bundles are laid out alike. */
import { type ColumnLayout, type WakeLayout, wakeBytes } from './format.ts';
import type { Tell } from './json-differences.ts';
import { unpackWake } from './wake.ts';

/** `wake.f32`: edges of the buckets, each channel's smallest, largest and mean values, close-ups. */
export function wakeDifferences(layout: WakeLayout, kept: Uint8Array, again: Uint8Array, tell: Tell): void {
  if (kept.length !== again.length || kept.length !== wakeBytes(layout)) {
    tellLengths(kept, again, tell);
    return;
  }
  const a = unpackWake(layout, kept);
  const b = unpackWake(layout, again);
  runDiffers('edges_s', a.edges_s, b.edges_s, (k) => `edge ${k + 1}`, tell);
  const at = (k: number): string => `${a.edges_s[k]} s`;
  layout.channels.forEach(({ id }, c) => {
    runDiffers(`${id} smallest`, a.min[c]!, b.min[c]!, at, tell);
    runDiffers(`${id} largest`, a.max[c]!, b.max[c]!, at, tell);
    runDiffers(`${id} mean`, a.mean[c]!, b.mean[c]!, at, tell);
  });
  a.closeUps.forEach(({ time_s, values }, k) => {
    const other = b.closeUps[k]!;
    const moment = (m: number): string => `${time_s[m]} s`;
    runDiffers(`close-up ${k + 1} time_s`, time_s, other.time_s, moment, tell);
    for (const [c, { id }] of layout.channels.entries())
      runDiffers(`close-up ${k + 1} ${id}`, values[c]!, other.values[c]!, moment, tell);
  });
}

/** `streams.f64`: column by column. */
export function columnDifferences(
  layout: readonly ColumnLayout[],
  kept: Uint8Array,
  again: Uint8Array,
  tell: Tell,
): void {
  if (kept.length !== again.length) {
    tellLengths(kept, again, tell);
    return;
  }
  let from = 0;
  for (const { name, length } of layout) {
    const column = (bytes: Uint8Array): Float64Array =>
      new Float64Array(bytes.slice(from, from + 8 * length).buffer);
    runDiffers(name, column(kept), column(again), (k) => `value ${k + 1}`, tell);
    from += 8 * length;
  }
}

function tellLengths(kept: Uint8Array, again: Uint8Array, tell: Tell): void {
  tell({ where: 'length', kept: `${kept.length} bytes`, again: `${again.length} bytes` });
}

/** Told once for a run of values: how many differ, and the first of them. */
function runDiffers(
  name: string,
  kept: Float32Array | Float64Array,
  again: Float32Array | Float64Array,
  placeOf: (index: number) => string,
  tell: Tell,
): void {
  const a = bitsOf(kept);
  const b = bitsOf(again);
  const words = kept.BYTES_PER_ELEMENT / 4;
  const differs = (k: number): boolean => {
    for (let w = words * k; w < words * (k + 1); w += 1) if (a[w] !== b[w]) return true;
    return false;
  };
  let first = -1;
  let count = 0;
  for (let k = 0; k < kept.length; k += 1) {
    if (!differs(k)) continue;
    if (first < 0) first = k;
    count += 1;
  }
  if (count === 0) return;
  tell({
    where: `${name}, ${placeOf(first)}${count === 1 ? '' : ` and ${count - 1} more of ${kept.length}`}`,
    kept: String(kept[first]),
    again: String(again[first]),
  });
}

/** NaN and signed zeros differ by their bits alone. */
function bitsOf({ buffer, byteOffset, byteLength }: Float32Array | Float64Array): Uint32Array {
  return new Uint32Array(buffer, byteOffset, byteLength / 4);
}
