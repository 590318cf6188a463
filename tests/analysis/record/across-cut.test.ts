import { describe, expect, it } from 'vitest';
import { acrossCut } from '../../../src/analysis/record/across-cut.ts';
import { caseOf } from '../../../src/analysis/record/case.ts';
import type { Result } from '../../../src/engine/result.ts';
import { demandOf, resultOf, scenarioOf } from '../fixture.ts';

const channels = [{ id: 'sled-1.power_W', kind: 'sled-power', owner: 'sled-1', unit: 'W' }] as const;

/** A sled's power in pieces of 0.1 s from `from_s` on [kW]. */
function drawing(from_s: number, kW: readonly number[]): Result {
  const column = () => [Float32Array.from(kW, (p) => 1e3 * p)];
  const to_s = from_s + kW.length / 10;
  const base = resultOf({ window: { from_s, to_s } });
  const edges_s = Float64Array.from({ length: kW.length + 1 }, (_, k) => from_s + k / 10);
  const recording = { ...base.recording, channels, bucketCount: kW.length, edges_s };
  return { ...base, recording: { ...recording, min: column(), max: column(), mean: column() } };
}

describe('one round of a load', () => {
  // 1.6 s, of which the window cuts 0.6 s at 10 kW into 0.4 s and 0.2 s.
  const power = [10, 10, 10, 10, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 10, 10];
  const counters = { ...resultOf().counters, cycles_to_converge: 3 };
  // The cabinet's own curves belong to another window: what repeats is told by the demand and the counters.
  const means = { ...resultOf().means, columns: new Map([['total.load_W', new Float64Array(160).fill(1)]]) };
  const result = { ...drawing(1.6, power), counters, means };
  // A round must be 2 s long to stand for the load.
  const c = {
    ...caseOf(scenarioOf(), demandOf(), result),
    cycle: { span: result.window, words: '', disturbed: false },
  };

  it('goes on at its beginning where it ends', () => {
    expect(acrossCut(c, 'sled-1.power_W', 0.6, 'mean')!.value).toBeCloseTo(10_000, 6);
    expect(acrossCut(c, 'sled-1.power_W', 0.6, 'held')!.value).toBe(10_000);
    // 0.6 s of 10 kW and 0.2 s of 2 kW.
    expect(acrossCut(c, 'sled-1.power_W', 0.8, 'mean')!.value).toBeCloseTo(8000, 6);
    expect(acrossCut(c, 'sled-1.power_W', 0.8, 'held')!.value).toBe(2000);
  });

  it('tells nothing that is longer than the round', () => {
    expect(acrossCut(c, 'sled-1.power_W', 2, 'mean')).toBeNull();
  });

  it('is no round where something happened in it', () => {
    const disturbed = { ...c, cycle: { span: result.window, words: '', disturbed: true } };
    expect(acrossCut(disturbed, 'sled-1.power_W', 0.6, 'mean')).toBeNull();
  });
});

describe('a cabinet that stood before', () => {
  const step = demandOf({
    period_ticks: null,
    content: { from_tick: 300_000, to_tick: 310_000, what: 'the step', repeats: false },
    nextKink: () => 300_000,
  });
  const scenario = scenarioOf({ start: 'settled' });
  const of = (kW: readonly number[], demand = step) => caseOf(scenario, demand, drawing(0, kW));

  it('drew for ever what it began with', () => {
    const c = of([8, 8, 8, 2, 2, 2]);
    expect(acrossCut(c, 'sled-1.power_W', 60, 'held')!.value).toBe(8000);
    expect(acrossCut(c, 'sled-1.power_W', 60, 'mean')!.value).toBeCloseTo(8000, 6);
  });

  it('and rises into a mean that is higher than both sides of the beginning', () => {
    // 0.7 s of 4 kW, then 0.3 s of 10 kW.
    expect(acrossCut(of([4, 10, 10, 10, 0, 0]), 'sled-1.power_W', 1, 'mean')!.value).toBeCloseTo(5800, 6);
    expect(acrossCut(of([10, 10, 10, 0, 0, 0]), 'sled-1.power_W', 1, 'mean')!.value).toBeCloseTo(10_000, 6);
  });

  it('did not where its load swings or was recorded', () => {
    const recorded = demandOf({ period_ticks: null, content: null });
    expect(acrossCut(of([8, 8, 2, 2], recorded), 'sled-1.power_W', 1, 'held')).toBeNull();
    const swinging = demandOf({ period_ticks: null, content: { ...step.content!, repeats: true } });
    expect(acrossCut(of([8, 8, 2, 2], swinging), 'sled-1.power_W', 1, 'held')).toBeNull();
  });
});
