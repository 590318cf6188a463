/** A small cabinet's run, made by hand: two shelves, one tray, one bank, one battery shelf, one sled. */
import type { Channel } from '../../src/channels/channel.ts';
import type { Extreme, MeanSquare, Result, StayTable } from '../../src/engine/result.ts';
import type { LogEntry, LogKind } from '../../src/events/log.ts';
import type { RecordedSpan, SpanKind, WhatOf } from '../../src/events/spans.ts';
import type { Demand } from '../../src/loads/demand.ts';
import type { LimitRow } from '../../src/scenario/limit-row.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

export const row = (
  id: string,
  quantity: string,
  side: 'upper' | 'lower',
  normal: number | null,
  more: Partial<LimitRow> = {},
): LimitRow => ({
  id,
  title: `Title of ${id}`,
  source: 'assumed: made for this test',
  quantity,
  side,
  unit: 'ratio',
  normal,
  carry: normal,
  degraded: normal,
  stay_s: null,
  band_Hz: null,
  needs_Hz: null,
  ...more,
});

export const rows: readonly LimitRow[] = [
  row('steady-low', 'bus-stay', 'lower', 0.96, { carry: 0.95, degraded: 0.95, stay_s: 1, needs_Hz: 0.44 }),
  row('short-low', 'bus-stay', 'lower', 0.93, { carry: 0.9, degraded: 0.9, stay_s: 0.002, needs_Hz: 220 }),
  row('floor', 'bus-stay', 'lower', 0.86, { stay_s: 0, needs_Hz: 10_000 }),
  row('steady-high', 'bus-stay', 'upper', 1.02, { degraded: 1.04, stay_s: 1, needs_Hz: 0.44 }),
  row('ripple-0.5-3', 'ac-band-ripple', 'upper', 0.1, { degraded: 0.15, band_Hz: [0.5, 3], needs_Hz: 3 }),
  row('tone', 'ac-tone', 'upper', 0.02, { band_Hz: [7, 100], needs_Hz: 100 }),
  row('ramp-100ms', 'ac-ramp-100ms', 'upper', 1 / 3, { unit: '1/s', needs_Hz: 4.4 }),
  row('ramp-1s', 'ac-ramp-1s', 'upper', 1 / 3, { unit: '1/s', needs_Hz: 0.44 }),
  row('range', 'ac-range-10s', 'upper', 0.2, { needs_Hz: 10 }),
  row('line', 'line-current', 'upper', 0.8, { needs_Hz: 0.44 }),
  row('line-short', 'line-current', 'upper', 1, { stay_s: 10, needs_Hz: 0.44 }),
  row('pst', 'flicker-pst', 'upper', 1, { needs_Hz: 35 }),
  row('share-high', 'share-steady-high', 'upper', 0.05),
  row('share-low', 'share-steady-low', 'upper', 0.1),
  row('share-edge', 'share-transient', 'upper', 0.25),
  row('trim', 'trim', 'upper', 0.8),
  row('balance', 'section-balance', 'upper', 0.1),
  row('shelf', 'shelf-continuous', 'upper', 1),
  row('bulk', 'bulk-margin', 'lower', 10, { unit: 'V' }),
  row('charge-low', 'tray-charge-low', 'lower', 0.05),
  row('charge-high', 'tray-charge-high', 'upper', 0.95),
  row('tray-rms', 'tray-capacitor-rms', 'upper', 1),
  row('bank-rms', 'bank-ripple-rms', 'upper', 1),
  row('starts', 'battery-starts', 'upper', 0, { unit: 'count', carry: null }),
  row('idle', 'battery-idle-current', 'upper', 0.01, { carry: null }),
];

/** What the meter counted at: the limits and a few levels between. */
export const levels_V: Float64Array = Float64Array.from([
  43, 45, 46.5, 47.5, 48, 48.5, 49, 49.5, 50, 50.5, 51, 52,
]);

const shelf = (id: string, feeder: string) => ({
  id,
  feeder,
  values: {
    module_count_count: 5,
    module_power_W: 7200,
    rated_voltage_V: 50,
    set_point_V: 50.25,
    bulk_voltage_min_V: 330,
    bulk_voltage_max_V: 450,
    bulk_voltage_resume_V: 430,
    power_limit_ratio: 1.1,
    ac_loss_fixed_W: 90,
    ac_loss_linear_ratio: 0.005,
    ac_loss_square_per_W: 2.2e-7,
    power_factor_ratio: 1,
    power_factor_half_ratio: 0,
    power_factor_fifth_ratio: 0,
    power_factor_tenth_ratio: 0,
    current_distortion_ratio: 0,
    current_distortion_half_ratio: 0,
    current_distortion_fifth_ratio: 0,
    current_distortion_tenth_ratio: 0,
    start_delay_s: 1,
    walk_in_s: 10,
  },
});

export function scenarioOf(changes: Partial<Scenario> = {}): Scenario {
  return {
    id: 'made-up',
    title: 'Made up',
    about: 'By hand.',
    seed: 1,
    duration_s: 30,
    tick_s: 1e-6,
    outage: false,
    nominal_V: 50,
    rated_W: 60_000,
    cabinets_on_feeder_count: 1,
    coincidence: 'together',
    waivers: [],
    conditions: [],
    feeders: ['FA', 'FB'].map((id) => ({
      id,
      values: {
        line_voltage_V: 400,
        frequency_Hz: 50,
        breaker_current_A: 50,
        short_circuit_power_VA: 1e6,
        reactance_ratio_ratio: 2,
      },
    })),
    sections: [
      { id: 'A', order: ['S1', 'T1', 'K1'] },
      { id: 'B', order: ['S2', 'B1'] },
    ],
    bars: { links: [{ id: 'A.link1' }] },
    shelves: [shelf('S1', 'FA'), shelf('S2', 'FB')],
    trays: [{ id: 'T1', values: { capacitor_current_rms_rating_A: 300 } }],
    banks: [{ id: 'K1', values: { ripple_current_rating_A: 150 } }],
    batteries: [{ id: 'B1', values: { module_count_count: 6, module_power_W: 10_000, rated_voltage_V: 50 } }],
    sleds: [],
    firmware: { share: { trim_limit_V: 1 } },
    events: [],
    limits: rows,
    limits_basis: { file: 'models/limits-default.yaml', compared: true, differences: [] },
    load: { kind: 'constant', power_W: 40_000 },
    start: 'settled',
    warm_up_s: 1.2,
    controllers: [],
    changes: [],
    alterations: [],
    warnings: [],
    origins: new Map(),
    inputs: [],
    ...changes,
  } as unknown as Scenario;
}

/** What the sleds ask for is left open: 0, which nothing is held against. */
export function demandOf(changes: Partial<Demand> = {}): Demand {
  const load = {
    peak_W: 50_000,
    low_W: 20_000,
    content: null,
    profileCount: 1,
    profileOf: new Int32Array(64),
    at: (out: Float64Array) => out.fill(0),
  };
  return { period_ticks: 1_600_000, bandwidth_Hz: null, ...load, ...changes } as Demand;
}

const catalogue: readonly Channel[] = [
  { id: 'A.S1.voltage_V', kind: 'node-voltage', owner: 'A.S1', unit: 'V' },
  { id: 'rack.1.voltage_V', kind: 'node-voltage', owner: 'rack.1', unit: 'V' },
  { id: 'S1.current_A', kind: 'shelf-current', owner: 'S1', unit: 'A' },
  { id: 'S2.current_A', kind: 'shelf-current', owner: 'S2', unit: 'A' },
  { id: 'S1.trim_V', kind: 'shelf-trim', owner: 'S1', unit: 'V' },
  { id: 'S1.bulk_V', kind: 'shelf-bulk', owner: 'S1', unit: 'V' },
  { id: 'T1.charge_ratio', kind: 'tray-charge', owner: 'T1', unit: 'ratio' },
  { id: 'T1.capacitor_current_A', kind: 'tray-current', owner: 'T1', unit: 'A' },
  { id: 'K1.current_A', kind: 'bank-current', owner: 'K1', unit: 'A' },
  { id: 'B1.current_A', kind: 'battery-current', owner: 'B1', unit: 'A' },
  { id: 'A.link1.current_A', kind: 'bar-current', owner: 'A.link1', unit: 'A' },
  { id: 'total.ac_power_W', kind: 'total', owner: 'total', unit: 'W' },
];

const extreme = (channel: string, min: number, max: number): Extreme => ({
  channel,
  min,
  min_s: 12,
  max,
  max_s: 13,
});

const meanSquare = (channel: string, mean: number, rms: number): MeanSquare => ({ channel, mean, rms });

/** Nothing was beyond any level but what `set` writes: node, level, longest stay, when, how often. */
export function stayTable(
  nodes: number,
  below: readonly [number, number, number, number, number][] = [],
): StayTable {
  const cells = nodes * levels_V.length;
  const table = {
    below_s: new Float64Array(cells),
    belowAt_s: new Float64Array(cells),
    belowCount: new Uint32Array(cells),
    belowFirst_s: new Float64Array(cells),
    belowLast_s: new Float64Array(cells),
    above_s: new Float64Array(cells),
    aboveAt_s: new Float64Array(cells),
    aboveCount: new Uint32Array(cells),
    aboveFirst_s: new Float64Array(cells),
    aboveLast_s: new Float64Array(cells),
  };
  for (const [node, level, stay, at, count] of below) {
    const cell = node * levels_V.length + levels_V.indexOf(level);
    table.below_s[cell] = stay;
    table.belowAt_s[cell] = at;
    table.belowCount[cell] = count;
  }
  return table;
}

const acPower = (t: number): number => 40_000 + 1000 * Math.sin((2 * Math.PI * t) / 1.6);

export const entry = (time_s: number, who: string, what: LogKind, detail: string): LogEntry => ({
  tick: Math.round(time_s * 1e6),
  time_s,
  who,
  what,
  detail,
});

/** What the record says that held: from … to; `null`: still when the run ended, at 30 s. */
export function span<K extends SpanKind>(
  kind: K,
  who: string,
  from_s: number,
  to_s: number | null,
  what?: WhatOf<K>,
): RecordedSpan {
  const end_s = to_s ?? 30;
  return {
    kind,
    who,
    what: what ?? '',
    from_s,
    to_s: end_s,
    open: to_s === null,
    count: 1,
    held_s: end_s - from_s,
    amount: null,
    moved_to_s: from_s,
  };
}

/** 28.8 s from 1.2 s: 18 periods of 1.6 s; 40 kW ± 1 kW at the beat; nothing beyond any limit. */
export function resultOf(changes: Partial<Result> = {}, ac: (t: number) => number = acPower): Result {
  const from_s = 1.2;
  const count = 2880;
  const column = (at: (t: number) => number): Float64Array =>
    Float64Array.from({ length: count }, (_, j) => at(from_s + (j + 0.5) * 0.01));
  const nodes = ['A.S1', 'rack.1'];
  return {
    status: 'ok',
    failure: null,
    window: { from_s, to_s: 30 },
    recording: {
      channels: catalogue,
      bucketCount: 3,
      edges_s: Float64Array.from([1.2, 10, 20, 30]),
      // The charge comes back to where it was: the run is in its cycle.
      min: catalogue.map(({ kind }) =>
        Float32Array.from(kind === 'tray-charge' ? [0.2, 0.2, 0.2] : [400, 380, 405]),
      ),
      max: catalogue.map(({ kind }) =>
        Float32Array.from(kind === 'tray-charge' ? [0.8, 0.8, 0.8] : [420, 420, 420]),
      ),
      mean: catalogue.map(({ kind }) =>
        Float32Array.from(kind === 'tray-charge' ? [0.5, 0.5, 0.5] : [410, 410, 410]),
      ),
    },
    extremes: [
      extreme('A.S1.voltage_V', 49.6, 50.2),
      extreme('rack.1.voltage_V', 49.4, 50.1),
      extreme('S1.current_A', 300, 500),
      extreme('S2.current_A', 310, 490),
      extreme('S1.trim_V', -0.2, 0.1),
      extreme('S1.bulk_V', 380, 425),
      extreme('T1.charge_ratio', 0.2, 0.8),
      extreme('T1.capacitor_current_A', -500, 500),
      extreme('K1.current_A', -200, 200),
      extreme('B1.current_A', -2, 4),
      extreme('A.link1.current_A', -900, 800),
      extreme('total.ac_power_W', 39_000, 41_000),
    ],
    stays: {
      nodes,
      levels_V,
      // Both nodes are below 50 V for long; the rack node is below 49.5 V for 0.3 s at most.
      normal: stayTable(2, [
        [0, 50, 3, 2, 9],
        [1, 50, 4, 2, 9],
        [1, 49.5, 0.3, 2.5, 18],
        [0, 50.5, 28.8, 1.2, 1],
        [1, 50.5, 28.8, 1.2, 1],
        [0, 51, 28.8, 1.2, 1],
        [1, 51, 28.8, 1.2, 1],
      ]),
      carry: stayTable(2),
      carry_s: 0,
    },
    rounds: [],
    meanSquares: [
      meanSquare('S1.current_A', 400, 410),
      meanSquare('S2.current_A', 395, 405),
      meanSquare('T1.capacitor_current_A', 0, 150),
      meanSquare('K1.current_A', 0, 60),
      meanSquare('total.ac_power_W', 40_000, 40_006),
      meanSquare('total.line_current_A', 57.7, 58),
    ],
    means: {
      width_s: 0.01,
      at_start: {},
      from_s,
      columns: new Map([
        ['total.ac_power_W', column(ac)],
        ['total.load_W', column((t) => (t % 1.6 < 1.12 ? 50_000 : 20_000))],
        ['FA.ac_power_W', column((t) => ac(t) / 2)],
        ['FB.ac_power_W', column((t) => ac(t) / 2)],
      ]),
    },
    streams: [
      {
        channel: 'total.ac_power_W',
        rate_Hz: 1000,
        from_s,
        samples: Float64Array.from({ length: 28_800 }, (_, j) => ac(from_s + j / 1000)),
        flat_to_Hz: 400,
      },
    ],
    share: {
      steady: { ratio: 0.01, shelf: 'S1', time_s: 9 },
      transient: { ratio: 0.1, shelf: 'S2', time_s: 8 },
    },
    audit: {
      rows: [{ owner: 'S1', cause: 'DC stage', kind: 'loss', energy_J: 100 }],
      input_J: 1000,
      load_J: 890,
      loss_J: 100,
      stored_J: 10,
      residual_ratio: 0,
      residual_loss_ratio: 0,
    },
    log: [],
    spans: [],
    bars: [],
    unshown: [],
    swings: { found: [], gaps: { longest_s: 1.118, by_length: [{ at_least_s: 1, total_s: 28 }] } },
    counters: { step_s: 5e-5, steps: 600_000, states: 30, nodes: 2, mode_retries: 0 },
    ...changes,
  } as unknown as Result;
}
