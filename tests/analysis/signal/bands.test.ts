import { expect, test } from 'vitest';
import { bandRipple } from '../../../src/analysis/signal/bands.ts';

const rate_Hz = 1000;

function wave(duration_s: number, at: (t: number) => number): Float64Array {
  const samples = new Float64Array(Math.round(duration_s * rate_Hz));
  for (let j = 0; j < samples.length; j++) samples[j] = at(j / rate_Hz);
  return samples;
}

const tone = (f: number, t: number): number => Math.sin(2 * Math.PI * f * t);

test.each([
  [0.2, 0],
  [1, 1],
  [5, 2],
  [50, 3],
])('a tone of %d Hz is 2A/mean in its own band and nothing elsewhere', (f, own) => {
  const bands = bandRipple(
    wave(20, (t) => 100 + 4 * tone(f, t)),
    rate_Hz,
    true,
  );
  bands.forEach((band, k) => {
    // 16 points a cycle and a parabola: cos(π/16) and its neighbours give 0.9995 at worst.
    if (k === own) expect(Math.abs(band.ripple_ratio! / 0.08 - 1)).toBeLessThan(1e-3);
    else expect(band.ripple_ratio!).toBeLessThan(1e-12);
  });
});

test.each([
  [0.5, 1],
  [3, 2],
  [20, 3],
])('a tone on the edge at %d Hz belongs to the band above', (f, own) => {
  const bands = bandRipple(
    wave(20, (t) => 100 + 4 * tone(f, t)),
    rate_Hz,
    true,
  );
  expect(bands.map((band) => band.ripple_ratio! > 0.07)).toEqual([0, 1, 2, 3].map((k) => k === own));
});

test('two tones in one band add up to the peak to peak of their sum', () => {
  const bands = bandRipple(
    wave(10, (t) => 10 + tone(1, t) + tone(2, t)),
    rate_Hz,
    true,
  );
  // sin x + sin 2x peaks at cos x = (√33 − 1)/8: 1.7602 each way.
  expect(Math.abs(bands[1]!.ripple_ratio! - (2 * 1.760173) / 10)).toBeLessThan(1e-3 * 0.352);
});

test('a window of whole periods of any length needs no power of two', () => {
  // 18 periods of 1.6 s: 28 800 samples.
  const bands = bandRipple(
    wave(28.8, (t) => 50 + tone(0.625, t)),
    rate_Hz,
    true,
  );
  expect(Math.abs(bands[1]!.ripple_ratio! / 0.04 - 1)).toBeLessThan(1e-3);
  expect(bands[0]!.ripple_ratio!).toBeLessThan(1e-11);
});

test('a band is null where the window is shorter than two of its longest periods', () => {
  const nulls = (duration_s: number): boolean[] =>
    bandRipple(
      wave(duration_s, (t) => 7 + tone(5, t)),
      rate_Hz,
      true,
    ).map((band) => band.ripple_ratio === null);
  //                       0.1–0.5  0.5–3  3–20   20–300 Hz
  expect(nulls(20)).toEqual([false, false, false, false]);
  expect(nulls(19.9)).toEqual([true, false, false, false]);
  expect(nulls(3.9)).toEqual([true, true, false, false]);
  expect(nulls(0.6)).toEqual([true, true, true, false]);
  expect(nulls(0.099)).toEqual([true, true, true, true]);
});

test('a straight line leaves no ripple when it is removed', () => {
  const bands = bandRipple(
    wave(20, (t) => 100 + 3 * t),
    rate_Hz,
    false,
  );
  for (const band of bands) expect(band.ripple_ratio!).toBeLessThan(1e-12);
});

test('a stretch that cuts a swing in half leaks little of it into the bands above', () => {
  // 20.3 beats of 1.6 s: first and last sample lie 95 % of the amplitude apart.
  const bands = bandRipple(
    wave(20.3 * 1.6, (t) => 100 + 10 * tone(0.625, t)),
    rate_Hz,
    false,
  );
  // Ends that meet but for their slope: a brick wall rings there, an eighth in the own band, far less above.
  // (With a least-squares line the ends would lie half a swing apart, and so would the bands above.)
  expect(Math.abs(bands[1]!.ripple_ratio! / 0.2 - 1)).toBeLessThan(0.125);
  expect(bands[2]!.ripple_ratio! / 0.2).toBeLessThan(0.06);
  expect(bands[3]!.ripple_ratio! / 0.2).toBeLessThan(0.01);
});

test('a long stretch is taken in pieces and gives what it gives at once', () => {
  // 300 s at 1 kHz: above twice 2^17 samples. A burst sits where two pieces overlap.
  const burst = (t: number): number =>
    Math.abs(t - 98) < 2 ? 6 * tone(5, t) * Math.cos(((t - 98) * Math.PI) / 4) ** 2 : 0;
  const bands = bandRipple(
    wave(300, (t) => 100 + 2 * tone(5, t) + 3 * tone(0.2, t) + burst(t)),
    rate_Hz,
    false,
  );
  expect(Math.abs(bands[2]!.ripple_ratio! / 0.16 - 1)).toBeLessThan(0.01);
  // The lowest band rings at the ends of the stretch, by a quarter here; never less than the tone itself.
  expect(bands[0]!.ripple_ratio! / 0.06).toBeGreaterThan(0.999);
  expect(bands[0]!.ripple_ratio! / 0.06).toBeLessThan(1.3);
});

test('a signal without a positive mean has no ripple ratio', () => {
  expect(
    bandRipple(
      wave(20, () => 0),
      rate_Hz,
      true,
    ).map((band) => band.ripple_ratio),
  ).toEqual([null, null, null, null]);
});
