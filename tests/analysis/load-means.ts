/** 10 ms means of a made-up load, for what reads starts, stops and beats off them. */
import type { LoadMeans } from '../../src/analysis/record/load-changes.ts';

export const loadMeans = (duration_s: number, at: (t: number) => number): LoadMeans => ({
  means: Float64Array.from({ length: Math.round(duration_s * 100) }, (_, j) => at((j + 0.5) * 0.01)),
  from_s: 0,
  width_s: 0.01,
});

export const pulses = (t: number): number => (t % 1.6 < 1.12 ? 240 : 100);
