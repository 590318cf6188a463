/**
 * A stretch of samples that stands a second time, exactly, under later stamps: a block that was copied, or a buffer
 * that was sent twice. Windows are compared by rolling hashes (Karp and Rabin 1987) with those that begin at every
 * 32nd sample before, and what agrees is compared value by value: in proportion to the length, one number of memory
 * for every 32 samples.
 */
import { logarithm } from '../../base/logarithm.ts';
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import { smooth_ratio, TurnCount } from './equal-runs.ts';
import type { Sampled, Sign } from './sign.ts';

/** Samples of a window. */
const window = 32;
/** Changes of value that a window needs: one that stands still, or has a few flat levels, agrees with many. */
const fewestChanges = 8;
const base = 0x01000193;

/** A stretch [from, to) that also stands `shift` samples earlier. */
interface Repeat {
  readonly from: number;
  readonly to: number;
  readonly shift: number;
}

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
  const table = new Anchors(Math.ceil(n / window));
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

/** Whether a stretch says more than chance repeats [bit]: of each change half of what its value says, each cycle once. */
function isTelling(values: Float64Array, { from, to, shift }: Repeat, counts: Uint32Array): boolean {
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
function turns(values: Float64Array, { from, to }: Repeat): boolean {
  const count = new TurnCount();
  for (let i = from + 1; i < to; i++) count.meet(values[i]! - values[i - 1]!);
  const { changes, turn_ratio } = count.unrest(to - from);
  return changes > 0 && turn_ratio >= smooth_ratio;
}

/** How often each value comes; values of one place are counted as one, which says less of each. */
function countsOf(values: Float64Array): Uint32Array {
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

const number = new DataView(new ArrayBuffer(8));

/** A hash of a value, of all its bits. */
function hashOf(value: number): number {
  number.setFloat64(0, value);
  let h = Math.imul(number.getInt32(0) ^ Math.imul(number.getInt32(4), 0x85ebca6b), 0xc2b2ae35);
  h ^= h >>> 15;
  return Math.imul(h, 0x27d4eb2f) ^ (h >>> 13);
}

/** Places of windows by their hash; of several with one hash the first is kept. */
class Anchors {
  private readonly hashes: Int32Array;
  /** Place of the window and 1; 0 where none is. */
  private readonly places: Int32Array;
  private readonly mask: number;

  constructor(count: number) {
    let size = 16;
    while (size < 2 * count) size *= 2;
    this.hashes = new Int32Array(size);
    this.places = new Int32Array(size);
    this.mask = size - 1;
  }

  find(hash: number): number {
    return this.places[this.slot(hash)]! - 1;
  }

  keep(hash: number, place: number): void {
    const slot = this.slot(hash);
    if (this.places[slot] !== 0) return;
    this.hashes[slot] = hash;
    this.places[slot] = place + 1;
  }

  private slot(hash: number): number {
    let slot = (hash ^ (hash >>> 16)) & this.mask;
    while (this.places[slot] !== 0 && this.hashes[slot] !== hash) slot = (slot + 1) & this.mask;
    return slot;
  }
}
