/**
 * A stretch of samples that stands a second time, exactly, under later stamps: a block that was copied, or a buffer
 * that was sent twice. Windows are compared by rolling hashes (Karp and Rabin 1987) with those that begin at every
 * 32nd sample before, and what agrees is compared value by value: in proportion to the length, four numbers of memory
 * for every 32 samples.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { Sampled, Sign } from './sign.ts';
import { countsOf, isTelling, type Repeat, turns } from './telling-stretch.ts';
import { hashOf } from './value-hash.ts';
import { WindowsMet } from './windows-met.ts';

/** Samples of a window. */
const window = 32;
/** Changes of value that a window needs: one that stands still, or has a few flat levels, agrees with many. */
const fewestChanges = 8;
const base = 0x01000193;

/** What was found: signs, and a remark where most of a channel is one cycle, again and again. */
export interface Repeats {
  readonly signs: readonly Sign[];
  readonly remarks: readonly string[];
}

/** A channel that repeats itself for so much of its length is periodic by nature, or was played again and again. */
const periodic_ratio = 0.5;

export function repeatedStretches({ name, time_s, values }: Sampled): Repeats {
  const found = repeatsIn(values);
  const all = found.reduce((sum, { from, to }) => sum + to - from, 0);
  const duration = (from: number, to: number): string =>
    formatQuantity(time_s[to]! - time_s[from]!, 'time', 4);
  const at = (i: number): string => formatQuantity(time_s[i]!, 'time', 5);
  if (all > periodic_ratio * values.length) {
    const { from, to, shift } = found.reduce((a, b) => (b.to - b.from > a.to - a.from ? b : a));
    return {
      signs: [],
      remarks: [
        `${name} repeats itself exactly for ${formatPercent(all / values.length, 2)} of its length, ${to - from} samples in a row every ${duration(from - shift, from)}: a synthetic cycle, or one recording played again.`,
      ],
    };
  }
  const signs = found.map(
    ({ from, to, shift }): Sign => ({
      kind: 'repeated',
      channel: name,
      from_s: time_s[from]!,
      to_s: time_s[to - 1]!,
      shows: `${name} repeats ${duration(from, to - 1)} exactly: ${to - from} samples from ${at(from)} on are those from ${at(from - shift)} on`,
      asks: 'a block that was copied or sent twice?',
    }),
  );
  return { signs, remarks: [] };
}

function repeatsIn(values: Float64Array): Repeat[] {
  const n = values.length;
  if (n < 2 * window) return [];
  const table = new WindowsMet(Math.ceil(n / window));
  const counts = countsOf(values);
  const found: Repeat[] = [];
  let oldest = 1;
  for (let k = 1; k < window; k++) oldest = Math.imul(oldest, base);
  let [hash, changes, until] = [0, 0, 0];
  const isChange = (i: number): number => (i > 0 && values[i] !== values[i - 1] ? 1 : 0);
  for (let i = 0; i < n; i++) {
    if (i >= window) {
      hash = (hash - Math.imul(hashOf(values[i - window]!), oldest)) | 0;
      changes -= isChange(i - window);
    }
    hash = (Math.imul(hash, base) + hashOf(values[i]!)) | 0;
    changes += isChange(i);
    const from = i - window + 1;
    if (from < 0 || changes < fewestChanges) continue;
    const earlier = from < until ? -1 : table.find(hash);
    if (earlier >= 0 && isEqual(values, earlier, from)) {
      const repeat = extended(values, from, from - earlier, until);
      until = repeat.to;
      if (isTelling(values, repeat, counts) && turns(values, repeat)) found.push(repeat);
    }
    if (from % window === 0) table.keep(hash, from);
  }
  return found;
}

function isEqual(values: Float64Array, a: number, b: number): boolean {
  for (let k = 0; k < window; k++) if (values[a + k] !== values[b + k]) return false;
  return true;
}

/** The stretch about a window that agrees with what stands `shift` before it; nothing before `earliest` is taken again. */
function extended(values: Float64Array, at: number, shift: number, earliest: number): Repeat {
  let from = at;
  while (from > Math.max(earliest, shift) && values[from - 1] === values[from - 1 - shift]) from--;
  let to = at + window;
  while (to < values.length && values[to] === values[to - shift]) to++;
  return { from, to, shift };
}
