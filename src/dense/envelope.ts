/**
 * An envelope on its way through the filters of a meter: drawn finer, demodulated, weighted, squared, smoothed. Text of the
 * compiled form (`kernel.ts`); as it stands, the plain one.
 */
import type { Int } from '../base/int.ts';
import { filter } from './filters.ts';

/**
 * What a demodulator gives of an envelope e on a carrier: e² (1 − c), `finer` times as often. e runs along cubics through
 * four neighbours, −p/6 + q/2 − r/2 + s/6, with four weights of its values for each place between them in `cubics`; of
 * `envelope` the first value lies before the first place and two behind the last. The carrier repeats after `period`
 * values and begins at `from`.
 */
function demodulate(
  fine: Float64Array,
  envelope: Float64Array,
  count: Int,
  finer: Int,
  cubics: Float64Array,
  carrier: Float64Array,
  period: Int,
  from: Int,
): void {
  for (let j: Int = 0; j < count; j++) fine[j * finer] = envelope[j + 1]!;
  for (let k: Int = 1; k < finer; k++) {
    const before = cubics[4 * k]!;
    const here = cubics[4 * k + 1]!;
    const next = cubics[4 * k + 2]!;
    const after = cubics[4 * k + 3]!;
    for (let j: Int = 0; j < count; j++) {
      const p = before * envelope[j]!;
      const q = here * envelope[j + 1]!;
      const r = next * envelope[j + 2]!;
      const s = after * envelope[j + 3]!;
      fine[j * finer + k] = -p / 6 + q / 2 - r / 2 + s / 6;
    }
  }
  let at: Int = from;
  for (let m: Int = 0; m < count * finer; m++) {
    const e = fine[m]!;
    fine[m] = e * e * (1 - carrier[at]!);
    at++;
    if (at === period) at = 0;
  }
}

/**
 * Three sections of `filter` from section `first` on, sample by sample through all of them: each waits for its own last
 * value alone, so that the three are worked out beside each other. The same operations, the same bits.
 */
function filterThree(x: Float64Array, count: Int, terms: Float64Array, kept: Float64Array, first: Int): void {
  const a = 5 * first;
  const a0 = terms[a]!;
  const a1 = terms[a + 1]!;
  const a2 = terms[a + 2]!;
  const a3 = terms[a + 3]!;
  const a4 = terms[a + 4]!;
  const b0 = terms[a + 5]!;
  const b1 = terms[a + 6]!;
  const b2 = terms[a + 7]!;
  const b3 = terms[a + 8]!;
  const b4 = terms[a + 9]!;
  const c0 = terms[a + 10]!;
  const c1 = terms[a + 11]!;
  const c2 = terms[a + 12]!;
  const c3 = terms[a + 13]!;
  const c4 = terms[a + 14]!;
  const z = 2 * first;
  let p1 = kept[z]!;
  let p2 = kept[z + 1]!;
  let q1 = kept[z + 2]!;
  let q2 = kept[z + 3]!;
  let r1 = kept[z + 4]!;
  let r2 = kept[z + 5]!;
  for (let j: Int = 0; j < count; j++) {
    const given = x[j]!;
    const u = a0 * given + p1;
    p1 = a1 * given - a3 * u + p2;
    p2 = a2 * given - a4 * u;
    const v = b0 * u + q1;
    q1 = b1 * u - b3 * v + q2;
    q2 = b2 * u - b4 * v;
    const w = c0 * v + r1;
    r1 = c1 * v - c3 * w + r2;
    r2 = c2 * v - c4 * w;
    x[j] = w;
  }
  kept[z] = p1;
  kept[z + 1] = p2;
  kept[z + 2] = q1;
  kept[z + 3] = q2;
  kept[z + 4] = r1;
  kept[z + 5] = r2;
}

/**
 * The square of what passes `sections` sections, a multiple of three, smoothed by one more and scaled, at each value of an envelope that goes
 * through the demodulator. `fine` is room for `count` × `finer` values; filters go on from column to column.
 */
export function senseEnvelope(
  sensed: Float64Array,
  envelope: Float64Array,
  fine: Float64Array,
  count: Int,
  finer: Int,
  cubics: Float64Array,
  carrier: Float64Array,
  period: Int,
  from: Int,
  terms: Float64Array,
  kept: Float64Array,
  sections: Int,
  smoothing: Float64Array,
  smoothed: Float64Array,
  scale: number,
): void {
  demodulate(fine, envelope, count, finer, cubics, carrier, period, from);
  const length = count * finer;
  for (let k: Int = 0; k < sections; k += 3) filterThree(fine, length, terms, kept, k);
  for (let m: Int = 0; m < length; m++) fine[m] = fine[m]! * fine[m]!;
  filter(fine, length, smoothing, smoothed, 1);
  for (let j: Int = 0; j < count; j++) sensed[j] = fine[j * finer]! * scale;
}
