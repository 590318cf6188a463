import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Governor, type GovernorSettings } from '../../src/loads/governor.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { shippedWith } from '../engine/runs.ts';

const free = Number.MAX_VALUE;

/** Corners of what a governor lets through of a demand given by its corners. */
function through(
  settings: GovernorSettings,
  corners: readonly (readonly [number, number])[],
): [number, number][] {
  const governor = new Governor(settings, corners[0]![0], corners[0]![1]);
  for (let i = 1; i < corners.length; i++) governor.follow(...corners[i - 1]!, ...corners[i]!);
  return governor.ticks.map((tick, k) => [tick, governor.values[k]!]);
}

/** Value at a tick of straight lines through corners. */
function at(corners: readonly (readonly [number, number])[], tick: number): number {
  const i = corners.findLastIndex(([t]) => t <= tick);
  const [t0, v0] = corners[i]!;
  const next = corners[i + 1];
  return next === undefined ? v0 : v0 + ((next[1] - v0) * (tick - t0)) / (next[0] - t0);
}

const pulse = [
  [0, 10],
  [100, 10],
  [101, 100],
  [200, 100],
  [201, 10],
  [1000, 10],
] as const;

describe('a governor', () => {
  it('without floor and limits lets the demand through as it is', () => {
    const out = through({ floor: 0, up: free, down: free, hold: 0 }, pulse);
    for (const [tick, value] of pulse) expect(at(out, tick)).toBe(value);
  });

  it('rises and falls at its ramps', () => {
    const out = through({ floor: 0, up: 1, down: 0.5, hold: 0 }, pulse);
    expect(at(out, 150)).toBeCloseTo(60, 9); // 10 + 1 × 50 from tick 100
    expect(at(out, 190)).toBeCloseTo(100, 9);
    expect(at(out, 300)).toBeCloseTo(50, 0); // 100 − 0.5 × 100 from tick 200, edge apart
    expect(at(out, 400)).toBeCloseTo(10, 9);
  });

  it('holds the floor for its hold time after the work has fallen below it, and no longer', () => {
    const out = through({ floor: 40, up: free, down: free, hold: 300 }, pulse);
    expect(at(out, 50)).toBe(10); // not before there was work
    expect(at(out, 250)).toBeCloseTo(40, 6);
    expect(at(out, 495)).toBeCloseTo(40, 6); // the fall crosses 40 between ticks 200 and 201
    expect(at(out, 510)).toBeCloseTo(10, 6);
  });

  it('never leaves its ramps, whatever is asked', () => {
    const corner = fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 200 }));
    fc.assert(
      fc.property(
        fc.array(corner, { minLength: 2, maxLength: 20 }),
        fc.record({
          floor: fc.integer({ min: 0, max: 150 }),
          up: fc.double({ min: 0.01, max: 5, noNaN: true }),
          down: fc.double({ min: 0.01, max: 5, noNaN: true }),
          hold: fc.integer({ min: 0, max: 500 }),
        }),
        (steps, settings) => {
          let tick = 0;
          const asked = steps.map(([apart, value]): [number, number] => {
            tick += apart;
            return [tick, value];
          });
          const out = through(settings, asked);
          for (let k = 1; k < out.length; k++) {
            const [t0, v0] = out[k - 1]!;
            const [t1, v1] = out[k]!;
            expect(t1).toBeGreaterThan(t0);
            expect((v1 - v0) / (t1 - t0)).toBeLessThanOrEqual(settings.up * (1 + 1e-9) + 1e-5);
            expect((v0 - v1) / (t1 - t0)).toBeLessThanOrEqual(settings.down * (1 + 1e-9) + 1e-5);
          }
          expect(out.at(-1)![0]).toBe(asked.at(-1)![0]);
        },
      ),
      { seed: 7, numRuns: 400 },
    );
  });
});

describe('sleds that smooth their own load', () => {
  const plain = makeDemand(shippedWith('pulse-train', { duration: '8 s' }));
  const smoothed = makeDemand(shippedWith('self-smoothed'));
  const sled = 240e3 / 16;

  it('repeat with the load and say what they draw beyond it', () => {
    expect(smoothed.period_ticks).toBe(plain.period_ticks);
    const more = smoothed.energy_J / plain.energy_J - 1;
    expect(smoothed.remarks!.at(-1)).toContain(`${(100 * more).toFixed(2)} %`);
    expect(more).toBeGreaterThan(0.02);
  });

  it('never fall below their floor between pulses', () => {
    expect(Math.abs(smoothed.low_W / (16 * sled * 0.5) - 1)).toBeLessThan(0.01);
  });

  it('are the same demand where no sled has a governor', () => {
    const silent = makeDemand(shippedWith('pulse-train', { duration: '8 s', 'sleds.governor_hold': '2 s' }));
    expect(silent.profileCount).toBe(1);
    expect(silent.energy_J).toBe(plain.energy_J);
  });

  it('are refused where the cycle cannot close', () => {
    const slow = shippedWith('pulse-train', {
      'sleds.governor_ramp_up': '2 W/s',
      'sleds.governor_ramp_down': '1 W/s',
    });
    expect(() => makeDemand(slow)).toThrow(/does not repeat after 500 periods/);
  });
});
