/** A meter's filters over an envelope: compiled and as they stand the same bits, those of its filters one by one. */
import { describe, expect, it } from 'vitest';
import { compiled } from '../../src/dense/compiled.ts';
import { senseEnvelope } from '../../src/dense/envelope.ts';
import { filter } from '../../src/dense/filters.ts';
import { senseColumn } from '../../src/dense/sensed-envelope.ts';

const finer = 2;
const count = 200;
const envelope = Float64Array.from({ length: count + 3 }, (_, j) => 1 + 1e-3 * (((j * 7919) % 101) / 101));
const cubics = Float64Array.of(0, 2, 0, 0, 0.375, 1.125, 1.125, -0.375);
const carrier = Float64Array.of(1, 0.25, -0.75, -1, -0.5);
const section = [0.2, 0.3, 0.1, -0.5, 0.2];
const terms = Float64Array.from(Array.from({ length: 6 }, (_, k) => section.map((c) => c / (1 + k))).flat());
const filters = () => ({
  finer,
  cubics,
  weighting: { terms, kept: new Float64Array(12).fill(0.01) },
  smoothing: { terms: Float64Array.from(section), kept: Float64Array.of(0.1, 0.2) },
  scale: 3,
});

describe('an envelope through a meter', () => {
  it('has the same bits compiled and as it stands, however it is cut', () => {
    expect(compiled()).not.toBeNull();
    const { weighting, smoothing, scale } = filters();
    const plain = new Float64Array(count);
    const fine = new Float64Array(count * finer);
    // biome-ignore format: one call
    senseEnvelope(plain, envelope, fine, count, finer, cubics, carrier, 5, 3, terms, weighting.kept, 6, smoothing.terms, smoothing.kept, scale);
    const cut = 70;
    const fast = new Float64Array(count);
    const going = filters();
    senseColumn(fast.subarray(0, cut), envelope.subarray(0, cut + 3), carrier, 3, going);
    senseColumn(fast.subarray(cut), envelope.subarray(cut), carrier, (3 + cut * finer) % 5, going);
    expect(fast).toEqual(plain);
    expect(going.weighting.kept).toEqual(weighting.kept);
    expect(going.smoothing.kept).toEqual(smoothing.kept);
  });

  it('is demodulated, weighted section by section, squared, smoothed and scaled', () => {
    const given = filters();
    const sensed = new Float64Array(count);
    senseColumn(sensed, envelope, carrier, 0, given);
    const x = Float64Array.from({ length: count * finer }, (_, m) => {
      const j = Math.floor(m / finer);
      const [p, q, r, s] = [0, 1, 2, 3].map((k) => cubics[4 * (m % finer) + k]! * envelope[j + k]!);
      const e = m % finer === 0 ? envelope[j + 1]! : -p! / 6 + q! / 2 - r! / 2 + s! / 6;
      return e * e * (1 - carrier[m % 5]!);
    });
    const { weighting, smoothing, scale } = filters();
    filter(x, x.length, terms, weighting.kept, 6);
    for (let m = 0; m < x.length; m++) x[m]! *= x[m]!;
    filter(x, x.length, smoothing.terms, smoothing.kept, 1);
    expect(sensed).toEqual(Float64Array.from(sensed, (_, j) => x[j * finer]! * scale));
  });
});
