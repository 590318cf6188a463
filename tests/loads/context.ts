import type { LoadContext } from '../../src/loads/load-problem.ts';

/** A scenario as far as loads need it: sleds with even shares, a tick of 0.25 µs. */
export function contextOf(
  over: { sledCount?: number; duration_s?: number; seed?: number } = {},
): LoadContext {
  const n = over.sledCount ?? 16;
  return {
    sleds: Array.from({ length: n }, (_, k) => ({
      id: `L${k + 1}`,
      share_ratio: 1 / n,
      values: {} as LoadContext['sleds'][number]['values'],
    })),
    seed: over.seed ?? 1,
    duration_s: over.duration_s ?? 16,
    warm_up_s: 0,
    tick_s: 0.25e-6,
    origins: new Map(),
  };
}
