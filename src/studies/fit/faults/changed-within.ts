/** Readings of one channel whose sign, unit or factor changes within the recording. */
import { type Beside, type Fault, type Hypothesis, type Stretch, withColumn } from './fault.ts';
import { isGain } from './readings-off.ts';

/** A part on either side, of all samples. */
const leastPart = 0.05;
/** Factors are alike, or a power of a thousand apart, within this. */
const about = 1.2;
/** A change of a gain by less is none. */
const leastChange = 0.005;

/** The moment at which two factors, before and after, leave least of m = g s; none where they are alike. */
export function changedWithin(beside: Beside, c: number): Hypothesis[] {
  const { columns, simulated, run_s } = beside;
  const { channel: path, time_s, values } = columns[c]!;
  const cut = cutOf(values, simulated[c]!);
  if (cut === null) return [];
  const { at, before, after } = cut;
  // The part whose factor is nearer to 1 is right.
  const isBefore = distance(before) > distance(after);
  const factor = isBefore ? before / after : after / before;
  const moment_s = run_s[c]![at]!;
  const stretch: Stretch = isBefore ? { from_s: null, to_s: moment_s } : { from_s: moment_s, to_s: null };
  const known = faultBy(factor, path, stretch);
  if (known === null) return [];
  const by = known.kind === 'sign' ? -1 : known.kind === 'unit' ? known.factor : factor;
  const mended = values.map((m, i) => (i < at === isBefore ? m / by : m));
  return [{ fault: known, without: withColumn(beside, c, { time_s, values: mended }), moved_s: null }];
}

type Scaled = Extract<Fault, { kind: 'sign' | 'unit' | 'gain' }>;

function faultBy(factor: number, path: string, stretch: Stretch): Scaled | null {
  if (isAbout(factor, -1)) return { kind: 'sign', path, ...stretch };
  const unit = [1e-6, 1e-3, 1e3, 1e6].find((one) => isAbout(factor, one));
  if (unit !== undefined) return { kind: 'unit', path, factor: unit, ...stretch };
  const isChange = isGain(factor) && Math.abs(factor - 1) > leastChange;
  return isChange ? { kind: 'gain', path, gain_ratio: factor, ...stretch } : null;
}

function isAbout(factor: number, one: number): boolean {
  return factor / one > 1 / about && factor / one < about;
}

/** How far a factor is from 1, by its magnitude and sign. */
function distance(factor: number): number {
  return factor > 0 ? Math.abs(Math.log(factor)) : Number.POSITIVE_INFINITY;
}

interface Cut {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

/** Largest (Σms)²/Σss before and after together. */
function cutOf(measured: Float64Array, simulated: Float64Array): Cut | null {
  const n = measured.length;
  const [ms, ss] = [new Float64Array(n + 1), new Float64Array(n + 1)];
  for (let i = 0; i < n; i++) {
    const s = Number.isNaN(simulated[i]!) ? 0 : simulated[i]!;
    ms[i + 1] = ms[i]! + measured[i]! * s;
    ss[i + 1] = ss[i]! + s * s;
  }
  let [best, most] = [null as Cut | null, Number.NEGATIVE_INFINITY];
  for (let at = Math.ceil(leastPart * n); at <= n - leastPart * n; at++) {
    const [first, second] = [ss[at]!, ss[n]! - ss[at]!];
    if (!(first > 0 && second > 0)) continue;
    const [before, after] = [ms[at]! / first, (ms[n]! - ms[at]!) / second];
    const taken = before * before * first + after * after * second;
    if (taken > most) [best, most] = [{ at, before, after }, taken];
  }
  return best;
}
