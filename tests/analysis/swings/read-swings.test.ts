import { describe, expect, it } from 'vitest';
import { type Case, caseOf } from '../../../src/analysis/record/case.ts';
import { oscillationOf } from '../../../src/analysis/swings/oscillating.ts';
import {
  readBusRipple,
  readDeviceHunting,
  readDeviceRipple,
} from '../../../src/analysis/swings/read-swings.ts';
import type { Channel } from '../../../src/channels/channel.ts';
import type { GapReading, SustainedSwing } from '../../../src/engine/result.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import type { Limit } from '../../../src/limits/limit.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { demandOf, resultOf, scenarioOf } from '../fixture.ts';

const droop = {
  droop_ohm: 0.7e-3,
  integral_gain_A_per_Vs: 1,
  proportional_gain_A_per_V: 200,
  line_ripple_ratio: 0,
};

/** The fixture's shelves of 720 A, with what naming a cause asks for. */
function caseWith(
  found: readonly Partial<SustainedSwing>[],
  more: {
    gaps?: GapReading;
    line_ripple_ratio?: number;
    spans?: readonly RecordedSpan[];
    latency_s?: number;
  } = {},
): Case {
  const plain = scenarioOf();
  const scenario = {
    ...plain,
    shelves: plain.shelves.map((shelf) => ({
      ...shelf,
      values: { ...shelf.values, ...droop, line_ripple_ratio: more.line_ripple_ratio ?? 0 },
    })),
    batteries: plain.batteries.map((b) => ({ ...b, values: { ...b.values, ...droop } })),
    trays: [{ id: 'T1', values: { capacitor_current_rms_rating_A: 300, power_limit_W: 20_000 } }],
    firmware: {
      share: {
        trim_limit_V: 1,
        trim_quantum_V: 0.01,
        path_resistance_ohm: 0.1e-3,
        period_s: 0.01,
        latency_s: more.latency_s ?? 0.01,
      },
    },
  } as unknown as Scenario;
  const swings = found.map((swing) => ({
    channel: 'S1.current_A',
    swing: 100,
    frequency_Hz: 4000,
    rate_per_s: 0,
    at_s: 2,
    from_s: 2,
    to_s: 12,
    held_s: 10,
    count: 1,
    grew: null,
    driven_by: null,
    ...swing,
  }));
  const gaps = more.gaps ?? { longest_s: 2, by_length: [{ at_least_s: 1, total_s: 14.4 }] };
  const { recording } = resultOf();
  const channels: Channel[] = [
    ...recording.channels,
    { id: 'T1.power_W', kind: 'tray-power', owner: 'T1', unit: 'W' },
  ];
  const result = resultOf({
    swings: { found: swings, gaps },
    spans: more.spans ?? [],
    recording: { ...recording, channels },
  });
  return caseOf(scenario, demandOf(), result);
}

const ripple: Limit = {
  id: 'x',
  title: 'x',
  source: 'assumed',
  quantity: 'device-ripple',
  side: 'upper',
  unit: 'ratio',
  column: 'normal',
  value: 0.025,
  stay_s: null,
  band_Hz: [100, 20_000],
  needs_Hz: null,
  reportOnly: false,
  removed: null,
};
const hunting: Limit = { ...ripple, band_Hz: [15, 100] };

const ratedOfS1 = 720;

describe('the ripple of devices', () => {
  it('is the largest swing that nothing drives, over rated, with whose it is, how fast, since when', () => {
    const c = caseWith([
      { swing: 116, frequency_Hz: 3844, grew: { frequency_Hz: 4089, rate_per_s: 515 } },
      { channel: 'S2.current_A', swing: 100, frequency_Hz: 3840 },
    ]);
    const reading = readDeviceRipple(c, ripple);
    expect(reading.value).toBeCloseTo(116 / ratedOfS1, 9);
    expect(reading).toMatchObject({ node: 'S1', time_s: 2, duration_s: 10, count: 1 });
    expect(reading.reason).toBe(
      'S1 swings 116 A peak to peak at 3.844 kHz, neither growing nor dying; with it S2; it grew by 515 1/s at 4.089 kHz',
    );
    expect(oscillationOf(c)).toBe(reading.reason);
  });

  it('says whether it grows, and at which limit of its own the device stood', () => {
    const at = {
      kind: 'at-limit',
      who: 'S1',
      from_s: 3,
      to_s: 4,
      open: false,
      count: 9,
      held_s: 0.1,
      amount: null,
      moved_to_s: 3,
    } as const;
    const spans = [
      { ...at, what: 'slew' },
      { ...at, what: 'current', who: 'S2' },
    ];
    const c = caseWith([{ rate_per_s: 1.5 }], { spans });
    expect(readDeviceRipple(c, ripple).reason).toBe(
      'S1 swings 100 A peak to peak at 4 kHz, growing by 1.5 1/s; against its limit of slew',
    );
  });

  it('leaves what the load or the line drives to stand beside it', () => {
    const c = caseWith(
      [
        { swing: 300, driven_by: 'load', frequency_Hz: 163 },
        { channel: 'S2.current_A', swing: 200, frequency_Hz: 300.3 },
        { channel: 'S2.current_A', swing: 14, frequency_Hz: 410 },
      ],
      { line_ripple_ratio: 1 },
    );
    const reading = readDeviceRipple(c, ripple);
    expect(reading.value).toBeCloseTo(14 / ratedOfS1, 9);
    expect(reading.outside).toMatchObject({ value: 300 / ratedOfS1 });
    expect(reading.outside?.reason).toContain('driven by the load');
    // Without pulsation of the line's there is nothing at its multiples to drive.
    const still = caseWith([{ channel: 'S2.current_A', swing: 200, frequency_Hz: 300.3 }]);
    expect(readDeviceRipple(still, ripple).value).toBeCloseTo(200 / ratedOfS1, 9);
  });

  it('says nothing where no gap between edges shows the band, unless what was seen is beyond the limit', () => {
    const gaps = { longest_s: 0.0098, by_length: [{ at_least_s: 0.009, total_s: 10 }] };
    const blind = readDeviceRipple(caseWith([{ swing: 10 }], { gaps }), ripple);
    expect(blind).toMatchObject({ value: null });
    expect(blind.cannotArise).toBeUndefined();
    expect(blind.reason).toMatch(/longest time between edges is 9.8 ms; a swing of 100 Hz shows in 47.5 ms/);
    expect(readDeviceRipple(caseWith([{ swing: 30 }], { gaps }), ripple).value).toBeCloseTo(
      30 / ratedOfS1,
      9,
    );
    const none = readDeviceRipple(caseWith([], { gaps: { longest_s: 0, by_length: [] } }), ripple);
    expect(none).toMatchObject({ value: null, reason: 'no time in the window lies between edges' });
  });

  it('says which part of the window could show the band', () => {
    const gaps = {
      longest_s: 2,
      by_length: [
        { at_least_s: 0.02, total_s: 7.2 },
        { at_least_s: 1, total_s: 14.4 },
      ],
    };
    expect(readDeviceRipple(caseWith([], { gaps }), ripple)).toMatchObject({ value: 0, share_seen: 0.5 });
  });

  it('claims nothing below what the meter sees', () => {
    expect(readDeviceRipple(caseWith([]), { ...ripple, value: 0.001 }).value).toBeNull();
    expect(readDeviceRipple(caseWith([]), { ...ripple, band_Hz: null }).value).toBeNull();
  });
});

describe('hunting of devices', () => {
  it('leaves out quanta of the trims, up to twice the limit, and no swing faster than two share periods', () => {
    const move_A = 0.01 / 0.8e-3;
    const of = (swing: number, frequency_Hz: number) =>
      readDeviceHunting(caseWith([{ swing, frequency_Hz }]), hunting).value;
    expect(of(2.8 * move_A, 12)).toBe(0);
    expect(of(3.1 * move_A, 12)).toBeCloseTo((3.1 * move_A) / ratedOfS1, 9);
    expect(of(1.9 * move_A, 60)).toBeCloseTo((1.9 * move_A) / ratedOfS1, 9);
    expect(
      readDeviceHunting(caseWith([{ swing: 1.9 * move_A, frequency_Hz: 12 }]), { ...hunting, value: 0.01 })
        .value,
    ).toBeCloseTo((1.9 * move_A) / ratedOfS1, 9);
  });

  it('counts swings slower than its band, and leaves faster ones to the ripple', () => {
    expect(readDeviceHunting(caseWith([{ frequency_Hz: 0.7 }]), hunting).value).toBeCloseTo(
      100 / ratedOfS1,
      9,
    );
    expect(readDeviceHunting(caseWith([{ frequency_Hz: 101 }]), hunting).value).toBe(0);
  });

  it('must have been able to see the frequency at which a late share hunts', () => {
    expect(readDeviceHunting(caseWith([]), hunting).value).toBe(0);
    const late = readDeviceHunting(caseWith([], { latency_s: 0.2 }), hunting);
    expect(late).toMatchObject({ value: null });
    expect(late.reason).toContain('1.22 Hz');
  });

  it('of trays is of their power', () => {
    const c = caseWith([{ channel: 'T1.power_W', swing: 1000, frequency_Hz: 20 }]);
    expect(readDeviceHunting(c, hunting).value).toBe(0.05);
  });
});

describe('the ripple of the bus', () => {
  it('is in volts, at a node', () => {
    const reading = readBusRipple(caseWith([{ channel: 'A.S1.voltage_V', swing: 0.65 }]), {
      ...ripple,
      unit: 'V',
      value: 0.25,
    });
    expect(reading).toMatchObject({ value: 0.65, node: 'A.S1' });
  });
});
