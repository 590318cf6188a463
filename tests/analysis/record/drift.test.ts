import { describe, expect, it, test } from 'vitest';
import { caseOf } from '../../../src/analysis/record/case.ts';
import { readTrayDrift } from '../../../src/analysis/record/drift.ts';
import type { Recording } from '../../../src/engine/result.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { demandOf, resultOf, scenarioOf, span } from '../fixture.ts';

/** Charge saws between `low` and `low` + 0.1 with the load's 1.6 s, in buckets of 0.4 s. */
function reading(
  low: (t: number) => number,
  period_ticks: number | null = 1_600_000,
  spans: readonly RecordedSpan[] = [],
) {
  const base = resultOf();
  const bucketCount = 72;
  const min = Float32Array.from({ length: bucketCount }, (_, b) => low(1.2 + 0.4 * b) + 0.025 * (b % 4));
  const recording: Recording = {
    ...base.recording,
    bucketCount,
    edges_s: Float64Array.from({ length: bucketCount + 1 }, (_, b) => 1.2 + 0.4 * b),
    min: base.recording.channels.map(() => min),
    max: base.recording.channels.map(() => min),
  };
  const limit = { value: 0.005, side: 'upper' } as const;
  const { firmware } = scenarioOf();
  const scenario = scenarioOf({
    firmware: { ...firmware, smoothing: { ...firmware.smoothing, charge_time_s: 20 } },
  });
  return readTrayDrift(caseOf(scenario, demandOf({ period_ticks }), { ...base, recording, spans }), limit);
}

test('a charge that comes back does not drift', () => {
  expect(reading(() => 0.3).value).toBeCloseTo(0, 7);
});

test('a charge that sinks by 1 % every cycle drifts by that', () => {
  const { value, node, reason } = reading((t) => 0.5 - 0.01 * Math.floor((t - 1.2 + 1e-9) / 1.6));
  expect(value).toBeCloseTo(0.01, 6);
  expect([node, reason]).toEqual(['T1', 'downwards, per cycle']);
});

test('without a cycle there is no drift to speak of', () => {
  expect(reading(() => 0.3, null)).toEqual({
    value: null,
    reason: 'the load has no cycle',
    cannotArise: true,
  });
});

test('cycles without AC and in walk-in are left out, in which trays stand still and refill', () => {
  const away = [span('ac-lost', 'S1', 6, 8, 'feeder'), span('walk-in', 'S1', 8, 18)];
  // A charge that sinks before the end of walk-in and stands still from then on does not drift.
  const left = reading((t) => (t < 18 ? 0.5 - 0.01 * t : 0.32), 1_600_000, away);
  expect(left.value).toBeCloseTo(0, 7);
  expect(left.share_seen).toBeCloseTo(12 / 28.8, 6);
  const lost = reading(() => 0.3, 1_600_000, [span('ac-lost', 'S1', 1.5, null, 'feeder')]);
  expect(lost.value).toBe(null);
  expect(lost.cannotArise).toBeUndefined();
});

describe('a charge that moves after AC was away', () => {
  const away = [span('ac-lost', 'S1', 1.2, 4, 'feeder')];

  it('is on its way back where it slows, and settles nothing', () => {
    const { unsettled, value } = reading((t) => 0.6 - 0.4 * Math.exp(-(t - 4) / 10), 1_600_000, away);
    expect(value).toBeGreaterThan(0.005);
    expect(unsettled).toEqual({ because: 'may come back from what happened at 4 s', truth: 'either' });
  });

  it('drifts where it goes on as fast as before', () => {
    expect(reading((t) => 0.6 - 0.01 * t, 1_600_000, away).unsettled).toBeUndefined();
  });
});
