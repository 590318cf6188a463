import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { Thinned } from '../../../src/measured/curve/thinned.ts';

/** Edges, tails and a ringing, by uneven steps. */
function pointsOf(count: number): { readonly t: number; readonly v: number }[] {
  const dice = new Random(5);
  let t = 0;
  return Array.from({ length: count }, () => {
    t += 1e-4 * (0.2 + dice.uniform());
    const after = t % 0.1;
    return {
      t,
      v: 50 - Math.exp(-after / 0.01) * (1 + 0.3 * Math.sin(900 * after)) + 0.2 * Math.floor(10 * t),
    };
  });
}

function farthest(points: readonly { t: number; v: number }[], kept: ReturnType<Thinned['points']>): number {
  let [k, most] = [0, 0];
  for (const { t, v } of points) {
    while (k + 2 < kept.time_s.length && kept.time_s[k + 1]! < t) k++;
    const [t0, t1, v0, v1] = [kept.time_s[k]!, kept.time_s[k + 1]!, kept.values[k]!, kept.values[k + 1]!];
    most = Math.max(most, Math.abs(v0 + ((v1 - v0) * (t - t0)) / (t1 - t0) - v));
  }
  return most;
}

describe('Thinned', () => {
  test.each([1e-6, 1e-3, 0.05])('keeps a curve to within %d, by fewer points', (tolerance) => {
    const points = pointsOf(20_000);
    const thinned = new Thinned(tolerance);
    for (const { t, v } of points) thinned.push(t, v);
    const kept = thinned.points();
    expect(farthest(points, kept)).toBeLessThanOrEqual(tolerance * (1 + 1e-6));
    expect(kept.time_s.length).toBeLessThan(points.length);
    expect([kept.time_s[0], kept.time_s.at(-1)]).toEqual([points[0]!.t, points.at(-1)!.t]);
  });

  test('keeps every point of a bent curve without a tolerance', () => {
    const thinned = new Thinned(0);
    const points = pointsOf(1000);
    for (const { t, v } of points) thinned.push(t, v);
    expect([...thinned.points().values]).toEqual(points.map(({ v }) => v));
  });

  test('never keeps more than it may, however long the curve, and stays near it', () => {
    const most = 512;
    const thinned = new Thinned(0, most);
    const points = pointsOf(50_000);
    for (const { t, v } of points) thinned.push(t, v);
    const kept = thinned.points();
    expect(kept.time_s.length).toBeLessThanOrEqual(most);
    expect(farthest(points, kept)).toBeLessThan(0.5);
  });
});
