import { expect, test } from 'vitest';
import { bandRipple } from '../../src/analysis/bands.ts';

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
    // The grid holds at least 32 points a cycle: the peak is missed by at most 1 − cos(π/32) = 0.5 %.
    if (k === own) expect(Math.abs(band.ripple_ratio! / 0.08 - 1)).toBeLessThan(5e-3);
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
  expect(Math.abs(bands[1]!.ripple_ratio! / 0.04 - 1)).toBeLessThan(5e-3);
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

test('a signal without a positive mean has no ripple ratio', () => {
  expect(
    bandRipple(
      wave(20, () => 0),
      rate_Hz,
      true,
    ).map((band) => band.ripple_ratio),
  ).toEqual([null, null, null, null]);
});
