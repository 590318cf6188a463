import { describe, expect, it } from 'vitest';
import { LineRipple, modulesByPhase } from '../../../src/devices/intake/line-ripple.ts';

/** Highest less lowest m over a cycle of the line, over 2: how deep the power pulses. */
function depthOf(counts: readonly number[], lost = false, R = 1): number {
  const perTick = 1 / 1000;
  const ripple = new LineRipple([counts], Float64Array.of(R), Float64Array.of(perTick));
  if (lost) ripple.losePhase(0, true);
  let [low, high, sum] = [2, 0, 0];
  for (let tick = 0; tick < 1000; tick++) {
    ripple.span(tick, tick + 1);
    const m = ripple.start[0]!;
    low = Math.min(low, m);
    high = Math.max(high, m);
    sum += m;
  }
  // The mean is the power itself, whatever pulses.
  expect(sum / 1000).toBeCloseTo(1, 12);
  return (high - low) / 2;
}

describe('single-phase modules', () => {
  it.each([
    [[1, 0, 0], 1],
    [[1, 1, 0], 0.5],
    [[1, 1, 1], 0],
    [[2, 2, 1], 0.2],
    [[7, 7, 6], 0.05],
  ])('on the three phases as %j let %d of the power pulse', (counts, depth) => {
    expect(depthOf(counts)).toBeCloseTo(depth, 4);
  });

  it('let half of it pulse once a phase is lost, and nothing where nobody looks', () => {
    expect(depthOf([2, 2, 2], true)).toBeCloseTo(0.5, 4);
    expect(depthOf([1, 0, 0], false, 0)).toBe(0);
    expect(depthOf([1, 0, 0], false, 0.3)).toBeCloseTo(0.3, 4);
  });

  it('of the first phase are those that go with it; a shelf that has no others takes what it takes evenly', () => {
    expect(depthOf([0, 2, 0], true)).toBeCloseTo(1, 4);
    expect(depthOf([1, 2, 2], true)).toBeCloseTo(0.5, 4);
    expect(depthOf([1, 0, 0], true)).toBe(0);
  });

  it('come back with their phase', () => {
    const ripple = new LineRipple([[2, 2, 1]], Float64Array.of(1), Float64Array.of(1 / 1000));
    const moment = () => {
      ripple.span(100, 200);
      return [ripple.start[0], ripple.end[0]];
    };
    const before = moment();
    ripple.losePhase(0, true);
    expect(moment()).not.toEqual(before);
    ripple.losePhase(0, false);
    expect(moment()).toEqual(before);
  });

  it('are dealt out one after the other along the shelves of a feeder', () => {
    const shelf = (feeder: string) => ({ feeder, modules: 5 });
    expect(modulesByPhase([shelf('F1'), shelf('F2'), shelf('F1'), shelf('F1')])).toEqual([
      [2, 2, 1],
      [2, 2, 1],
      [2, 1, 2],
      [1, 2, 2],
    ]);
  });

  it('have their first peak a quarter of a line cycle after the start', () => {
    const ripple = new LineRipple([[1, 0, 0]], Float64Array.of(1), Float64Array.of(1 / 1000));
    ripple.span(0, 250);
    expect([ripple.start[0], ripple.end[0]]).toEqual([0, 2]);
  });
});
