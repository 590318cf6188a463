import { describe, expect, it } from 'vitest';
import { GrowthMarks } from '../../../src/engine/meters/growth.ts';
import { HalfSwings, mostBlocks } from '../../../src/engine/meters/half-swings.ts';
import { sustainedIn } from '../../../src/engine/meters/sustained-swing.ts';

const tick_s = 1e-6;

/** A row of half swings at a frequency, each as large as `size` says at its time. */
function rowOf(frequency_Hz: number, length_s: number, size: (time_s: number) => number): HalfSwings {
  const row = new HalfSwings();
  row.begin(0);
  const half_s = 0.5 / frequency_Hz;
  for (let k = 1; k * half_s <= length_s; k++) row.push(size(k * half_s), Math.round((k * half_s) / tick_s));
  return row;
}

describe('what of a row of half swings is sustained', () => {
  it('is all of an even one, whatever its length, in bounded memory', () => {
    for (const length_s of [0.02, 0.3, 40]) {
      const row = rowOf(5000, length_s, () => 30);
      expect(row.blocks).toBeLessThanOrEqual(mostBlocks);
      const found = sustainedIn(row, true, tick_s)!;
      expect(found.swing).toBeCloseTo(30, 9);
      expect(found.frequency_Hz).toBeCloseTo(5000, 0);
      expect(Math.abs(found.rate_per_s)).toBeLessThan(1e-6);
      expect([found.from, found.to]).toEqual([0, row.to]);
    }
  });

  it('is next to nothing of one that rings down, fast or slow, unless it is cut while it still swings evenly', () => {
    for (const [frequency_Hz, rate_per_s] of [
      [4600, 267],
      [4200, 20],
      [700, 100],
      [10, 2],
    ] as const) {
      const until_s = Math.log(100 / 2) / rate_per_s;
      const row = rowOf(frequency_Hz, until_s, (t) => 100 * Math.exp(-rate_per_s * t));
      const found = sustainedIn(row, false, tick_s);
      expect(found === null || found.swing < 18).toBe(true);
    }
  });

  it('is the cycle that a large kick ends in, not the kick', () => {
    const row = rowOf(4000, 0.4, (t) => 30 + 200 * Math.exp(-300 * t));
    const found = sustainedIn(row, true, tick_s)!;
    expect(found.swing).toBeGreaterThan(29.9);
    expect(found.swing).toBeLessThan(36);
  });

  it('is the end of one that grows over the whole row, with its rate', () => {
    const row = rowOf(300, 2, (t) => 3 * Math.exp(1.5 * t));
    const found = sustainedIn(row, true, tick_s)!;
    expect(found.swing).toBeGreaterThan(45);
    expect(found.rate_per_s).toBeCloseTo(1.5, 1);
  });

  it('is what begins 20 ms before the end, and not a burst of 20 ms that ends by itself', () => {
    const late = rowOf(4000, 0.02, () => 60);
    expect(sustainedIn(late, true, tick_s)?.swing).toBeCloseTo(60, 9);
    expect(sustainedIn(late, false, tick_s)).toBeNull();
    expect(
      sustainedIn(
        rowOf(4000, 0.06, () => 60),
        false,
        tick_s,
      )?.swing,
    ).toBeCloseTo(60, 9);
  });

  it('is nothing of fewer than eight half swings', () => {
    expect(
      sustainedIn(
        rowOf(100, 0.0351, () => 60),
        true,
        tick_s,
      ),
    ).toBeNull();
    expect(
      sustainedIn(
        rowOf(100, 0.0401, () => 60),
        true,
        tick_s,
      )?.swing,
    ).toBeCloseTo(60, 9);
  });
});

describe('how a row grew', () => {
  it('is read between doublings of the floor, before clamps hold it', () => {
    const marks = new GrowthMarks();
    marks.begin();
    for (let k = 1; k < 2000; k++) {
      const t = k / 8192;
      marks.push(Math.min(60, 0.9 * Math.exp(524 * t)), k, Math.round(t / tick_s));
    }
    const grown = marks.reading(tick_s)!;
    expect(grown.frequency_Hz).toBeGreaterThan(4096 * 0.99);
    expect(grown.frequency_Hz).toBeLessThan(4096 * 1.01);
    expect(grown.rate_per_s).toBeGreaterThan(524 * 0.9);
    expect(grown.rate_per_s).toBeLessThan(524 * 1.1);
  });

  it('is not told of one that began large', () => {
    const marks = new GrowthMarks();
    marks.begin();
    for (let k = 1; k < 200; k++) marks.push(40, k, 100 * k);
    expect(marks.reading(tick_s)).toBeNull();
  });
});
