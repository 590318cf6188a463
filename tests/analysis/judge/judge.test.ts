import { expect, test } from 'vitest';
import { judge } from '../../../src/analysis/judge/judge.ts';
import type { Finding, Report } from '../../../src/analysis/judge/report.ts';
import { demandOf, entry, resultOf, row, scenarioOf, span, stayTable } from '../fixture.ts';

const find = (report: Report, id: string, column?: string): Finding => {
  const found = report.findings.find((f) => f.id === id && (column === undefined || f.column === column));
  if (found === undefined) throw new Error(`no finding ${id}`);
  return found;
};

test('a quiet run passes, and the limit with the least headroom stands first', () => {
  const report = judge(scenarioOf(), demandOf(), resultOf());
  expect(report.verdict).toBe('pass');
  expect(report.summary).toMatchInlineSnapshot(
    `"Passes: Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %."`,
  );
  const headrooms = report.findings.filter((f) => f.verdict === 'pass').map((f) => f.headroom_ratio);
  const known = headrooms.filter((h) => h !== null);
  expect(known).toEqual([...known].sort((a, b) => a - b));
  expect(
    report.findings.filter((f) => f.verdict === 'not_applicable').map((f) => [f.id, f.reason]),
  ).toMatchInlineSnapshot(`
    [
      [
        "share-low",
        "holds from 20 % to 50 % load; the shelves carry 55 %",
      ],
    ]
  `);
});

test('every number of the report is finite or null', () => {
  const report = judge(scenarioOf(), demandOf(), resultOf());
  const walk = (value: unknown, path: string): void => {
    if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
    else if (value !== null && typeof value === 'object')
      for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
  };
  walk(report, 'report');
});

test('each reading is the number that the run shows', () => {
  const report = judge(scenarioOf(), demandOf(), resultOf());
  const values = Object.fromEntries(report.findings.map((f) => [f.id, [f.value, f.limit, f.node]]));
  const peakRamp = (w: number): number =>
    (1000 * (2 * Math.sin((Math.PI * w) / 1.6) ** 2)) / ((Math.PI * w * w) / 1.6);
  expect(values['ripple-0.5-3']![0]).toBeCloseTo(0.05, 4);
  expect(values['tone']![0]).toBeLessThan(1e-12);
  expect(values['ramp-100ms']![0]! as number).toBeCloseTo(peakRamp(0.1), -1);
  expect(values['ramp-1s']![0]! as number).toBeCloseTo(peakRamp(1), -1);
  expect(values['ramp-1s']![1]).toBe(20_000);
  expect(values['range']![0]).toBeCloseTo(2000, -1);
  expect(values['line']![0]).toBeCloseTo(20_000 / (Math.sqrt(3) * 400 * 50), 3);
  expect(values['share-high']).toEqual([0.01, 0.05, 'S1']);
  expect(values['share-edge']).toEqual([0.1, 0.25, 'S2']);
  expect(values['trim']).toEqual([0.2, 0.8, 'S1']);
  expect(values['balance']![0]).toBeCloseTo(5 / 397.5, 9);
  expect(values['shelf']).toEqual([410 / 720, 1, 'S1']);
  expect(values['bulk']).toEqual([50, 10, 'S1']);
  expect(values['charge-low']).toEqual([0.2, 0.05, 'T1']);
  expect(values['tray-rms']).toEqual([0.5, 1, 'T1']);
  expect(values['bank-rms']).toEqual([0.4, 1, 'K1']);
  expect(values['starts']).toEqual([0, 0, null]);
  expect(values['idle']).toEqual([4 / 1200, 0.01, 'B1']);
  // Below 49.5 V for 0.3 s, below 50 V for 4 s: straight between, 1 s lies at 49.5 + 0.5 × 0.7/3.7.
  expect(values['steady-low']).toEqual([49.5 + (0.5 * 0.7) / 3.7, 48, 'rack.1']);
  // Never below 49.4 V; below 49.5 V for 0.3 s: 2 ms lies just above the lowest voltage.
  expect(values['short-low']![0]).toBeCloseTo(49.4 + (0.1 * 0.002) / 0.3, 9);
  expect(values['floor']).toEqual([49.4, 43, 'rack.1']);
});

test('sections are held against each other only clear of AC loss, and only where their shelves are rated alike', () => {
  const base = resultOf({ spans: [span('ac-lost', 'S1', 2, null, 'feeder')] });
  const columns = new Map(base.means.columns);
  // Alike up to 2 s, then S1 is dark and S2 carries all.
  const dark = (before: number, after: number): Float64Array =>
    Float64Array.from({ length: 2880 }, (_, j) => (1.2 + j * 0.01 < 2 - 1e-9 ? before : after));
  columns.set('S1.current_A', dark(402, 0));
  columns.set('S2.current_A', dark(398, 800));
  const lost = judge(scenarioOf(), demandOf(), { ...base, means: { ...base.means, columns } });
  expect(find(lost, 'balance').value).toBeCloseTo(4 / 400, 9);
  expect(find(lost, 'balance').reason).toBe('while all shelves are on line, clear of AC loss and walk-in');
  expect(find(lost, 'balance').share_seen_ratio).toBeCloseTo(0.8 / 28.8, 9);

  const [one, two] = scenarioOf().shelves;
  const larger = { ...two!, values: { ...two!.values, module_count_count: 6 } };
  const unlike = judge(scenarioOf({ shelves: [one!, larger] }), demandOf(), resultOf());
  expect(find(unlike, 'balance')).toMatchObject({
    verdict: 'not_applicable',
    reason: 'the shelves of the sections are not rated alike: 1 in A, 1 in B',
  });
});

test('a stay is judged exactly at the limit: as long as allowed passes, longer fails', () => {
  const judged = (stay_s: number): Finding => {
    const base = resultOf();
    const normal = stayTable(2, [
      [1, 48, stay_s, 7, 3],
      [1, 48.5, 2, 6.5, 3],
      [0, 48.5, 0.1, 6.5, 3],
    ]);
    const log = [entry(6.9, 'cabinet', 'load-edge', 'load rises by 40 kW')];
    return find(
      judge(scenarioOf(), demandOf(), { ...base, log, stays: { ...base.stays, normal } }),
      'steady-low',
    );
  };
  expect(judged(1)).toMatchObject({ verdict: 'pass', value: 48, headroom_ratio: 0 });
  const failed = judged(1.001);
  expect(failed).toMatchObject({ verdict: 'fail', node: 'rack.1', time_s: 7, duration_s: 1.001, count: 3 });
  expect(failed.headroom_ratio).toBeLessThan(0);
  expect(failed.chain).toEqual(['At 6.9 s cabinet: load rises by 40 kW.']);
});

test('stays while a battery carries are judged in the carry column', () => {
  const base = resultOf();
  const carry = stayTable(2, [
    [0, 48, 2, 7, 1],
    [0, 47.5, 0.5, 7.1, 1],
  ]);
  const report = judge(scenarioOf(), demandOf(), { ...base, stays: { ...base.stays, carry, carry_s: 3 } });
  expect(find(report, 'steady-low', 'normal').verdict).toBe('pass');
  // 48.0 V for 2 s would break the normal column; carrying allows 47.5 V.
  expect(find(report, 'steady-low', 'carry')).toMatchObject({ verdict: 'pass', limit: 47.5, node: 'A.S1' });
});

test('a stay that is longer than the window is inconclusive: too short to show it is no pass', () => {
  const report = judge(scenarioOf(), demandOf(), resultOf({ window: { from_s: 1.2, to_s: 2 } }));
  expect(find(report, 'steady-low')).toMatchObject({
    verdict: 'inconclusive',
    reason: 'a stay of 1 s needs more time: the window without carrying is 0.8 s',
  });
  expect(find(report, 'short-low').verdict).toBe('pass');
  expect(report.verdict).toBe('pass_with_conditions');
});

test('a load that repeats is judged as if its cycle went on, from two periods and two seconds', () => {
  const over = (periods: number) =>
    find(
      judge(scenarioOf(), demandOf(), resultOf({ window: { from_s: 1.2, to_s: 1.2 + 1.6 * periods } })),
      'pst',
    );
  expect(over(1)).toMatchObject({
    verdict: 'inconclusive',
    reason:
      'needs ten minutes with AC; the window is 1.6 s; only 1.6 s of whole periods were run; 2 s are the least',
  });
  expect(over(2)).toMatchObject({ verdict: 'pass', share_seen_ratio: 1 });
});

test('an outage uses the degraded column where something was out, and who works harder is said', () => {
  const [tray] = scenarioOf().trays;
  const trays = [tray!, { ...tray!, id: 'T4' }];
  const spans = [span('out', 'T4', 5, null, 'taken out')];
  const report = judge(scenarioOf({ outage: true, trays }), demandOf(), resultOf({ spans }));
  expect(find(report, 'ripple-0.5-3')).toMatchObject({ column: 'degraded', limit: 0.15 });
  expect(find(report, 'tray-rms').reason).toMatchInlineSnapshot(
    `"T4 out: a tray uses 60 % of its window (20 % to 80 %) and 50 % of its RMS rating"`,
  );
});

test('bands and range wait 10 s after an event; ramps and bus limits do not', () => {
  const spans = [span('out', 'A.link1', 2, null, 'opened')];
  const result = resultOf({ window: { from_s: 1.2, to_s: 11.9 }, spans });
  const report = judge(scenarioOf(), demandOf(), result);
  expect(find(report, 'ripple-0.5-3').reason).toMatchInlineSnapshot(
    `"needs 4 s of steady operation; the longest stretch, 10 s clear of every start, stop and event, is 0.8 s"`,
  );
  expect(find(report, 'range').verdict).toBe('inconclusive');
  // What the bands were not judged over is not left unsaid.
  const outside = find(report, 'ripple-0.5-3').worst_outside;
  expect(outside?.value).toBeCloseTo(0.05, 4);
  expect(outside?.reason).toContain('settling after a start or stop');
  expect(find(report, 'ramp-1s').verdict).toBe('pass');
  expect(find(report, 'steady-low').verdict).toBe('pass');
});

test('no AC limit applies from AC loss to walk-in, and only the 1 s ramp during it', () => {
  const spans = [span('ac-lost', 'S1', 2, 6, 'feeder'), span('walk-in', 'S1', 6, 16)];
  // Steep kicks while lost and while walking in.
  const kicks = (t: number): number => (t > 3 && t < 5 ? 0 : t > 9 && t < 9.1 ? 100_000 : 40_000);
  const report = judge(scenarioOf(), demandOf(), resultOf({ spans }, kicks));
  expect(find(report, 'ramp-100ms').value).toBeCloseTo(0, 6);
  // 60 kW for 0.1 s moves a 1 s mean by 6 kW.
  expect(find(report, 'ramp-1s').value).toBeCloseTo(6000, 6);
  expect(find(report, 'line').value).toBeCloseTo(20_000 / (Math.sqrt(3) * 400 * 50), 9);
});

test('a battery start counts while AC is present and not while it is lost', () => {
  const log = [
    entry(2.1, 'B1', 'battery-start', 'AC lost'),
    entry(25, 'B1', 'battery-start', 'bus below 48.5 V for 2 ms'),
  ];
  const spans = [span('ac-lost', 'S1', 2, 6, 'feeder'), span('walk-in', 'S1', 6, 16)];
  const report = judge(scenarioOf(), demandOf(), resultOf({ log, spans }));
  expect(report.verdict).toBe('fail');
  expect(report.findings[0]).toMatchObject({
    id: 'starts',
    verdict: 'fail',
    value: 1,
    headroom_ratio: null,
    node: 'B1',
    time_s: 25,
    reason: '1 more while AC was lost or walking in, as meant',
  });
  expect(report.metrics.battery_starts_count).toBe(2);
});

test("a limit above the recording's bandwidth is inconclusive, and both numbers are named", () => {
  const report = judge(scenarioOf(), demandOf({ period_ticks: null, bandwidth_Hz: 25 }), resultOf());
  expect(report.verdict).toBe('pass_with_conditions');
  expect(find(report, 'tone')).toMatchObject({ verdict: 'inconclusive', headroom_ratio: null });
  expect(find(report, 'tone').reason).toMatchInlineSnapshot(
    `"needs content up to 100 Hz; the recording shows up to 25 Hz; strongest at 7.014 Hz, over 28.8 s from 1.2 s, a straight line removed"`,
  );
  expect(find(report, 'ramp-1s').verdict).toBe('pass');
});

test('a collapsed bus fails whatever the limits say, and says where', () => {
  const failure = { time_s: 1.5, name: 'rack.1', last_finite: 12.5, cause: 'the bus fell below 25 V' };
  const report = judge(scenarioOf(), demandOf(), resultOf({ status: 'collapsed', failure }));
  expect(report.verdict).toBe('fail');
  expect(report.summary).toMatchInlineSnapshot(
    `"Fails: the bus fell below 25 V at 1.5 s, rack.1, last finite value 12.5."`,
  );
});

test('a run that ended before its window shows nothing but is still reported', () => {
  const base = resultOf();
  const report = judge(scenarioOf(), demandOf(), {
    ...base,
    status: 'non_finite',
    extremes: [],
    rounds: [],
    meanSquares: [],
    streams: [],
    means: { ...base.means, columns: new Map() },
    share: { steady: null, transient: null },
    audit: { ...base.audit, input_J: Number.NaN, residual_ratio: Number.NaN },
  });
  expect(report.verdict).toBe('inconclusive');
  expect(report.energy.input_J).toBeNull();
  expect(report.metrics.bus_min_V).toBeNull();
});

test('an unknown quantity in a limits file is refused with the names that are known', () => {
  const scenario = scenarioOf({ limits: [row('odd', 'colour', 'upper', 1)] });
  expect(() => judge(scenario, demandOf(), resultOf())).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: limits.odd.quantity
      found     colour
      expected  a quantity that can be judged
      mend      write one of bus-stay, bus-ripple, device-ripple, device-hunting, ac-band-ripple, ac-tone, ac-ramp-100ms, ac-ramp-1s, ac-range-10s, line-current, flicker-pst, flicker-plt, voltage-change-max, voltage-change-steady, voltage-change-kept, supply-voltage, supply-fall, supply-loading, ac-energy-share, line-interharmonics, share-steady-high, share-steady-low, share-transient, share-settling, trim, section-balance, link-balance, bar-heat, joint-heat, shelf-continuous, shelf-peak, bulk-margin, tray-charge-low, tray-charge-high, tray-drift, tray-capacitor-rms, tray-follows, tray-converter, tray-hot-spot, tray-life, bank-ripple-rms, bank-voltage, bank-life, battery-starts, battery-idle-current, battery-take-over, battery-recharge, battery-current, sled-power, sled-power-1s, trip-margin, mode-damping
    1 problem. Nothing was run.]
  `);
});

test('judging the same result twice gives the same document', () => {
  const text = (): string => JSON.stringify(judge(scenarioOf(), demandOf(), resultOf()));
  expect(text()).toBe(text());
});
