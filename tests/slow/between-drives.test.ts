/** Mean squares with part of a steady current beside the load's own. */
import { expect, it } from 'vitest';
import { betweenDrives, movedWith } from '../../src/slow/between-drives.ts';
import type { Drive } from '../../src/slow/drive.ts';

/** A bar whose load alternates between two currents, with d beside both. */
const drive = (d: number, [low, high] = [400, 1000], power_W = 0): Drive => {
  const [a, b] = [low! + d, high! + d];
  const bar = { id: 'L1', mean_A: (a + b) / 2, rms_A: Math.sqrt((a * a + b * b) / 2), aged_ohm: 0 };
  return { bars: [bar], trays: [], banks: [], batteries: [{ id: 'B1', power_W }] };
};

it('is exact for a steady current, at every share of it', () => {
  for (const share of [0, 0.25, 0.5, 0.9, 1]) {
    const found = betweenDrives(drive(0), drive(120, [400, 1000], -2500), share);
    expect(found.bars[0]!.rms_A).toBeCloseTo(drive(120 * share).bars[0]!.rms_A, 9);
    expect(found.bars[0]!.mean_A).toBeCloseTo(drive(120 * share).bars[0]!.mean_A, 9);
    expect(found.batteries[0]!.power_W).toBeCloseTo(-2500 * share, 9);
  }
});

it('moves with the load beside it, to first order of both', () => {
  const moved = movedWith(drive(120), drive(0), drive(0, [410, 1010]));
  expect(moved.bars[0]!.mean_A).toBeCloseTo(drive(120, [410, 1010]).bars[0]!.mean_A, 9);
  // What is left out is 2 · 120 A · 10 A in the square.
  expect(Math.abs(moved.bars[0]!.rms_A - drive(120, [410, 1010]).bars[0]!.rms_A)).toBeLessThan(1.6);
});
