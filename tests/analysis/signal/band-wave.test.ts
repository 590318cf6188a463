import { expect, it } from 'vitest';
import { BandWaves } from '../../../src/analysis/signal/band-wave.ts';
import { complexOf, transform } from '../../../src/analysis/signal/fourier.ts';

it('a wave is the sum of its bins, drawn 16 points to a cycle of the highest, in pairs of w and −w', () => {
  const n = 250;
  const samples = Float64Array.from({ length: n }, (_, j) => ((j * 7919) % 1013) / 1013);
  const X = transform(complexOf(samples));
  const waves = new BandWaves();
  for (const [first, last] of [
    [1, 1],
    [2, 5],
    [3, 9],
    [4, 5],
  ] as const) {
    const wave = waves.wave(X, n, first, last);
    expect(wave.length).toBeGreaterThanOrEqual(16 * last);
    for (let j = 0; j < wave.length; j++) {
      let w = 0;
      for (let k = first; k <= last; k++) {
        const angle = (2 * Math.PI * k * j) / wave.length;
        w += (2 * (X[2 * k]! * Math.cos(angle) - X[2 * k + 1]! * Math.sin(angle))) / n;
      }
      expect(j % 2 === 0 ? wave[j] : -wave[j]!).toBeCloseTo(w, 12);
    }
  }
});
