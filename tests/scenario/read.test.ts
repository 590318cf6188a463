import { describe, expect, it } from 'vitest';
import { happens } from '../happens.ts';
import { readShipped } from './shipped.ts';

const pulseTrain = 'scenarios/pulse-train.yaml';
const { scenario, notes, warnings } = readShipped(pulseTrain);

describe('readScenario', () => {
  it('reads the pulse train as it is written, in SI', () => {
    expect(scenario.load).toEqual({
      kind: 'pulse-train',
      low_W: 100_000,
      high_W: 240_000,
      period_s: 1.6,
      duty_ratio: 0.7,
      edge_s: 0.005,
      spread_s: 0,
      scatter_s: 0,
      jitter_s: 0,
    });
    expect([scenario.duration_s, scenario.start, scenario.tick_s, scenario.step_s]).toEqual([
      30,
      'converged-cycle',
      2.5e-7,
      5e-5,
    ]);
    expect(warnings).toEqual([]);
  });

  it('places the units of the reference cabinet in their order', () => {
    const orders = scenario.sections.map(({ id, order }) => `${id}: ${order.join(' ')}`);
    expect(orders).toEqual([
      'A: S1 T1 S2 T2 K1 T3 S3 T4 B1 S4 T5 B2 B3',
      'B: S5 T6 S6 T7 K2 T8 S7 T9 B4 S8 T10 B5',
    ]);
    const links = scenario.bars.links.map((l) => `${l.id} ${l.section}${l.place}-${l.rack}`);
    expect(links).toEqual(['LA1 A1-1', 'LA2 A3-2', 'LB1 B1-16', 'LB2 B3-15']);
    expect(scenario.shelves.map(({ feeder }) => feeder)).toEqual([
      ...Array<string>(4).fill('F1'),
      ...Array<string>(4).fill('F2'),
    ]);
  });

  it('gives each shelf its own set-point offset and start delay', () => {
    expect(scenario.shelves.map(({ values }) => values.set_point_offset_ratio)).toEqual([
      0.002, -0.0015, 0.0005, -0.0022, 0.0011, 0.0024, -0.0008, -0.0015,
    ]);
    expect(scenario.shelves.map(({ values }) => values.start_delay_s)).toEqual([
      1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5,
    ]);
  });

  it('shares the load unevenly by up to 4 %, and wholly', () => {
    const shares = scenario.sleds.map(({ share_ratio }) => share_ratio);
    const stated = Array.from({ length: 16 }, (_, k) => (1 + 0.04 * (((7 * k) % 16) / 7.5 - 1)) / 16);
    for (const [k, share] of shares.entries()) expect(Math.abs(share - stated[k]!)).toBeLessThan(1e-15);
    expect(Math.abs(shares.reduce((a, b) => a + b, 0) - 1)).toBeLessThan(1e-12);
  });

  it('makes both halves of the mirrored cabinet equal', () => {
    const mirror = readShipped('scenarios/mirror.yaml').scenario;
    const kinds = mirror.sections.map(({ order }) => order.map((id) => id.replace(/\d+$/, '')).join(' '));
    expect(kinds[0]).toBe(kinds[1]);
    const offsets = mirror.shelves.map(({ values }) => values.set_point_offset_ratio);
    expect(offsets.slice(0, 4)).toEqual(offsets.slice(4));
    expect(new Set(mirror.sleds.map(({ share_ratio }) => share_ratio))).toEqual(new Set([1 / 16]));
  });

  it('tells where each value was written, and why', () => {
    expect(scenario.origins.get('load.high')).toMatchObject({ file: pulseTrain, column: 9 });
    expect(scenario.origins.get('shelves.S3.set_point_offset')?.file).toBe('models/reference-cabinet.yaml');
    expect(scenario.origins.get('trays.T4.capacitance')?.file).toBe('models/tray-20kw.yaml');
    expect(notes.get('trays.T4.capacitance')).toMatchObject({ source: 'derived', end_of_life: 130 });
  });

  it('lists every file it read with its sum, scenario first', () => {
    expect(scenario.inputs[0]?.path).toBe(pulseTrain);
    expect(scenario.inputs.map(({ path }) => path)).toContain('models/limits-default.yaml');
    for (const { sha256 } of scenario.inputs) expect(sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it('is frozen to the bottom', () => {
    expect(Object.isFrozen(scenario.trays[0]?.values)).toBe(true);
    expect(() => Object.assign(scenario.load, { low_W: 0 })).toThrow(TypeError);
  });

  it('reads limits with their columns, stays and bands', () => {
    const row = (id: string) => scenario.limits.find((limit) => limit.id === id);
    expect(row('bus-steady-low')).toMatchObject({ normal: 0.96, carry: 0.95, degraded: 0.95, stay_s: 1 });
    expect(row('ac-ripple-3-20')).toMatchObject({ normal: 0.05, degraded: 0.075, band_Hz: [3, 20] });
    expect(row('battery-starts')).toMatchObject({ normal: 0, carry: null });
  });

  it('takes a recorded load in place of the scenario and starts settled', () => {
    const recorded = {
      file: 'scenarios/loads/training-two-accelerators-50hz.csv',
      to: '20 s',
      peak: '200 kW',
      'reading.at': 'device',
      'reading.side': 'dc',
    };
    const replay = readShipped(pulseTrain, [], { recorded }).scenario;
    expect(replay.start).toBe('settled');
    expect(replay.load).toMatchObject({ kind: 'recorded', from_s: 0, to_s: 20, peak_W: 200_000 });
    expect(replay.inputs.map(({ path }) => path)).toContain(recorded.file);
  });
});

describe('changes', () => {
  const change = (...pairs: [string, string][]) =>
    readShipped(pulseTrain, [], { changes: pairs.map(([path, value]) => ({ path, value })) });

  it('reach all units of a kind, or one', () => {
    const changed = change(['trays.capacitance', '100 F'], ['trays.T4.capacitance', '90 F']).scenario;
    expect(changed.trays.map(({ values }) => values.capacitance_F)).toEqual([
      100, 100, 100, 90, 100, 100, 100, 100, 100, 100,
    ]);
    expect(changed.changes).toEqual([
      { path: 'trays.capacitance', value: '100 F' },
      { path: 'trays.T4.capacitance', value: '90 F' },
    ]);
  });

  it('reach firmware, bars, load, run and limits', () => {
    const { scenario: changed } = change(
      ['firmware.smoothing.latency', '1 ms'],
      ['firmware.smoothing.own_power', 'present'],
      ['bars.tie.closed', 'false'],
      ['bars.links.LA1.resistance', '60 µΩ'],
      ['bars.links.inductance', '200 nH'],
      ['load.high', '200 kW'],
      ['duration', '16 s'],
      ['limits.bus-steady-low.normal', '0.955'],
    );
    expect(changed.firmware.smoothing).toMatchObject({ latency_s: 0.001, own_power: 'present' });
    expect(changed.bars.tie?.closed).toBe(false);
    expect(changed.bars.links.map((l) => [l.resistance_ohm, l.inductance_H])).toEqual([
      [6e-5, 2e-7],
      [3e-5, 2e-7],
      [3e-5, 2e-7],
      [3e-5, 2e-7],
    ]);
    expect(changed.load).toMatchObject({ high_W: 200_000 });
    expect(changed.duration_s).toBe(16);
    expect(changed.limits[0]?.normal).toBe(0.955);
  });

  it('of the command line come after those of the scenario', () => {
    const swap = [
      pulseTrain,
      'duration: 30 s',
      'duration: 30 s\nchanges: { trays.capacitance: 100 F, trays.esr: 3 mΩ }',
    ] as const;
    const changes = [{ path: 'trays.capacitance', value: '120 F' }];
    const tray = readShipped(pulseTrain, [swap], { changes }).scenario.trays[0]?.values;
    expect(tray).toMatchObject({ capacitance_F: 120, esr_ohm: 0.003 });
  });

  it('age a kind or a unit to the values its model states', () => {
    const aged = readShipped('scenarios/end-of-life.yaml').scenario;
    expect(aged.trays[3]?.values).toMatchObject({ capacitance_F: 130, esr_ohm: 0.0048 });
    expect(aged.banks[0]?.values).toMatchObject({ capacitance_F: 0.064, esr_ohm: 0.001 });
    expect(aged.batteries[0]?.values.energy_J).toBe(18e6);
    const one = change(['ageing.T4', 'end-of-life'], ['trays.esr', '2 mΩ']).scenario;
    // What is written over the model's value ages as that would: twice.
    expect(one.trays[3]?.values).toMatchObject({ capacitance_F: 130, esr_ohm: 0.004 });
    expect(one.trays[4]?.values).toMatchObject({ capacitance_F: 162.5, esr_ohm: 0.002 });
  });

  it('leave units out, their places staying as bare bar', () => {
    const { scenario: smaller } = change(['trays.T10.fitted', 'no'], ['banks.fitted', 'no']);
    expect(smaller.trays.map(({ id }) => id)).toEqual(['T1', 'T2', 'T3', 'T4', 'T5', 'T6', 'T7', 'T8', 'T9']);
    expect(smaller.banks).toEqual([]);
    expect(smaller.sections[1]?.order).toContain('T10');
  });

  it('add events, kept in time order', () => {
    const { scenario: eventful } = change(
      ['events.add', 'tray-out T4 at 5 s'],
      ['events.add', 'bar-out tie at 2 s'],
      ['events.1.at', '6 s'],
    );
    expect(eventful.events).toEqual([happens(2, 'bar-out', 'tie'), happens(6, 'tray-out', 'T4')]);
  });

  it('that are legal but unusual are made and warned of, once for all units', () => {
    const read = change(['bars.segment.resistance', '500 mΩ'], ['banks.capacitance', '22 F']);
    expect(read.scenario.banks[0]?.values.capacitance_F).toBe(22);
    expect(read.warnings.map(({ path, found, expected }) => [path, found, expected])).toEqual([
      [
        'bars.segment.resistance',
        '500 mΩ',
        'usually 1 µΩ to 1 mΩ (loop resistance, joints included; 0: from its dimensions)',
      ],
      ['banks.capacitance', '22 F', 'usually 10 mF to 500 mF on a bus of 50 V (whole bank)'],
    ]);
  });
});
