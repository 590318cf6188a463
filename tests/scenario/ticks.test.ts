import { describe, expect, it } from 'vitest';
import { wholeTicks } from '../../src/scenario/ticks.ts';

describe('wholeTicks', () => {
  it('counts decimal times exactly, from one tick to hours', () => {
    expect(wholeTicks(2.5e-7, 2.5e-7)).toBe(1);
    expect(wholeTicks(0.1, 2.5e-7)).toBe(400_000);
    expect(wholeTicks(1.6, 2.5e-7)).toBe(6_400_000);
    expect(wholeTicks(7200, 2.5e-7)).toBe(28_800_000_000);
    expect(wholeTicks(0, 2.5e-7)).toBe(0);
  });

  it('gives null between two ticks', () => {
    expect(wholeTicks(2.6e-7, 2.5e-7)).toBeNull();
    expect(wholeTicks(7200.0000001, 2.5e-7)).toBeNull();
  });
});
