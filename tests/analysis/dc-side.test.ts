import { expect, test } from 'vitest';
import { judge } from '../../src/analysis/judge/judge.ts';
import { readBarHeat, readLinkBalance } from '../../src/analysis/read/bars.ts';
import { readBatteryTakeOver } from '../../src/analysis/read/hand-over.ts';
import { readTrayRms } from '../../src/analysis/read/storage.ts';
import { caseOf } from '../../src/analysis/record/case.ts';
import { carrySpans, extremeClearOf } from '../../src/analysis/record/clear-extremes.ts';
import { loadEdges } from '../../src/analysis/record/load-edges.ts';
import type { Result } from '../../src/engine/result.ts';
import { demandOf, entry, resultOf, row, scenarioOf, span } from './fixture.ts';

const tray = (capacitor_current_rms_rating_A: number) =>
  ({ id: 'T1', values: { capacitor_current_rms_rating_A, thermal_time_s: 640 } }) as never;
const aperiodic = demandOf({ period_ticks: null });

test('an RMS over less than the thermal time settles nothing, inside the rating or beyond it', () => {
  const limits = [row('tray-rms', 'tray-capacitor-rms', 'upper', 1)];
  const within = judge(scenarioOf({ limits, trays: [tray(300)] }), aperiodic, resultOf()).findings[0]!;
  expect(within).toMatchObject({ verdict: 'inconclusive', value: 0.5, headroom_ratio: null });
  expect(within.reason).toMatch(/^RMS over 28.8 s, short of the 640 s in which it warms up; /);
  const beyond = judge(scenarioOf({ limits, trays: [tray(100)] }), aperiodic, resultOf()).findings[0]!;
  expect(beyond).toMatchObject({ verdict: 'inconclusive', value: 1.5 });
  expect(beyond.reason).toMatch(/what was seen of it is beyond the limit$/);
});

test('whole periods of a load that repeats stand for a run without end', () => {
  const c = caseOf(scenarioOf({ trays: [tray(100)] }), demandOf(), resultOf());
  expect(readTrayRms(c)).toMatchObject({ value: 1.5 });
  expect(readTrayRms(c).unsettled).toBeUndefined();
  const once = caseOf(scenarioOf({ trays: [tray(100)] }), aperiodic, resultOf());
  expect(readTrayRms(once).unsettled).toMatchObject({ truth: 'either' });
});

test('after a disturbance the rounds that go on count; where none was kept, nothing is settled', () => {
  const spans = [span('altered', 'S1', 3, null, 'set-point-shift')];
  const scenario = scenarioOf({ trays: [tray(100)] });
  const reading = (rounds: Result['rounds']) =>
    readTrayRms(caseOf(scenario, demandOf(), resultOf({ spans, rounds })));
  expect(reading([]).unsettled).toMatchObject({ truth: 'either' });
  const rounds = [{ from_s: 20.4, squares: [{ channel: 'T1.capacitor_current_A', mean: 0, rms: 180 }] }];
  expect(reading(rounds).value).toBeCloseTo(1.8, 9);
  expect(reading(rounds).unsettled).toBeUndefined();
});

test('link bars are compared by RMS, opened ones left out; a bar at its rating is 50 K warm', () => {
  const bar = { rated_current_A: 1000, thermal_time_s: 0 };
  const links = ['L1', 'L2', 'L3'].map((id) => ({ id, closed: true, ...bar }));
  const bars = { links, tie: null, rackSegment: bar, segment: bar } as never;
  const base = resultOf({ spans: [span('out', 'L3', 1.2, null, 'opened')] });
  const channel = (id: string) => ({
    id: `${id}.current_A`,
    kind: 'bar-current' as const,
    owner: id,
    unit: 'A' as const,
  });
  const result = {
    ...base,
    recording: { ...base.recording, channels: [channel('L1'), channel('L2')] },
    rounds: [],
    meanSquares: [
      { channel: 'L1.current_A', mean: 900, rms: 1000 },
      { channel: 'L2.current_A', mean: 500, rms: 600 },
      { channel: 'L3.current_A', mean: 0, rms: 10 },
    ],
  };
  const c = caseOf(scenarioOf({ bars }), demandOf(), result);
  expect(readLinkBalance(c)).toMatchObject({ value: 0.5, node: 'L1' });
  expect(readBarHeat(c)).toMatchObject({
    value: 1,
    node: 'L1',
    reason: '1000 A RMS sustained heat it by 50.0 K',
  });
});

test('extremes clear of a stretch leave its buckets out', () => {
  const c = caseOf(scenarioOf(), demandOf(), resultOf());
  expect(extremeClearOf(c, 0, [])).toMatchObject({ min: 380, min_s: 10 });
  expect(extremeClearOf(c, 0, [{ from_s: 12, to_s: 13 }])).toMatchObject({ min: 400, min_s: 1.2 });
  expect(extremeClearOf(c, 0, [{ from_s: 0, to_s: 40 }])).toBeNull();
});

test('batteries carry where the record says so, those that overlap joined', () => {
  const spans = [
    span('carrying', 'B1', 2.002, 8),
    span('carrying', 'B2', 7, 9),
    span('charging', 'B1', 12, 15),
    span('carrying', 'B2', 20, null),
  ];
  expect(carrySpans(caseOf(scenarioOf(), demandOf(), resultOf({ spans })))).toEqual([
    { from_s: 2.002, to_s: 9 },
    { from_s: 20, to_s: 30 },
  ]);
});

test('a battery takes over from its start to where it carries; one that never did settles nothing', () => {
  const start = entry(2, 'B1', 'battery-start', 'starts');
  const log = [start, entry(2.002, 'B1', 'battery-carry', 'carries')];
  const reading = readBatteryTakeOver(caseOf(scenarioOf(), demandOf(), resultOf({ log })));
  expect(reading.value!).toBeCloseTo(0.002, 12);
  expect(reading).toMatchObject({ node: 'B1', time_s: 2 });
  expect(reading.unsettled).toBeUndefined();
  const never = readBatteryTakeOver(caseOf(scenarioOf(), demandOf(), resultOf({ log: [start] })));
  expect(never).toMatchObject({ value: 28, unsettled: { truth: 'worse' } });
});

test('edges of the load are told with their size; a ramp slower than the threshold is none', () => {
  const { means } = resultOf();
  const edges = loadEdges(means, 60_000);
  // 18 periods from 1.2 s: up at every 1.6 s, down 1.12 s later.
  expect(edges.filter(({ detail }) => detail.startsWith('rises'))).toHaveLength(18);
  expect(edges[0]).toMatchObject({ who: 'load', what: 'load-edge', detail: 'rises by 30 kW within 20 ms' });
  expect(edges[0]!.time_s).toBeCloseTo(1.6, 9);
  expect(loadEdges(means, 700_000)).toEqual([]);
});

test('a failing ripple has its moment and what the load did before it', () => {
  const limits = [row('ripple', 'ac-band-ripple', 'upper', 0.01, { band_Hz: [0.5, 3], needs_Hz: 3 })];
  const ac = (t: number): number => 40_000 + 1000 * Math.sin((2 * Math.PI * (t - 1.3)) / 1.6);
  const [finding] = judge(scenarioOf({ limits }), demandOf(), resultOf({}, ac)).findings;
  expect(finding!.verdict).toBe('fail');
  // 40 kW ± 1 kW at the beat of 1.6 s: farthest from the mean at 1.7 s and every half beat from there.
  const beats = (finding!.time_s! - 1.7) / 0.8;
  expect(Math.abs(beats - Math.round(beats))).toBeLessThan(0.02);
  expect(finding!.chain.at(-1)).toMatch(/load: (rises|falls) by 30 kW within 20 ms\.$/);
});
