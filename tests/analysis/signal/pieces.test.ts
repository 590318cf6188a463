import { describe, expect, it } from 'vitest';
import { energyShare } from '../../../src/analysis/grid/energy-share.ts';
import { piecesOf } from '../../../src/analysis/signal/pieces.ts';

describe('pieces of a long stretch', () => {
  it('count every sample once, whatever its length', () => {
    for (const n of [2, 262_144, 262_145, 400_000, 3_600_000]) {
      const counted = piecesOf(new Float64Array(n), false).reduce(
        (sum, { samples, from_ratio, to_ratio }) => sum + samples.length * (to_ratio - from_ratio),
        0,
      );
      // The last piece is moved back to end with the stretch, so that part of it may count twice.
      expect(counted).toBeGreaterThanOrEqual(n);
      expect(counted).toBeLessThan(n + 2 ** 16);
    }
  });

  it('share out the energy of a swing as the whole stretch does', () => {
    // Both tones have whole periods in half a piece, and begin at their peaks, so that hardly a line is taken out.
    const half = 2 ** 16;
    const wave = Float64Array.from(
      { length: 9 * half },
      (_, j) => 3 * Math.cos((2 * Math.PI * 112 * j) / half) + 4 * Math.cos((2 * Math.PI * 3952 * j) / half),
    );
    // 4²/(3² + 4²).
    expect(energyShare(wave, 1000, false, [20, 300])).toBeCloseTo(0.64, 2);
  });
});
