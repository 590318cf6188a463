/** Each fault of a recording, laid on a model in closed form, is the one that leaves least when all are weighed. */
import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import type { Curves } from '../../../src/measured/curve/curve.ts';
import type { MeasuredColumn } from '../../../src/measured/measurement.ts';
import { type Weighed, weighedFaults } from '../../../src/studies/fit/faults/weigh.ts';
import { residualsOf } from '../../../src/studies/fit/residuals.ts';

const [bus, shelf] = ['A.S1.voltage_V', 'S1.current_A'] as const;
const noise = { [bus]: 0.004, [shelf]: 0.5 };
const count = 200;
const interval_s = 0.002;

/** No two stretches of either are alike. */
const shown = {
  [bus]: (t: number): number => 50 + 0.5 * Math.sin(2 * Math.PI * (10 + 60 * t) * t),
  [shelf]: (t: number): number => 160 - 60 * Math.sin(2 * Math.PI * (10 + 60 * t) * t + 0.3),
};

const times_s = Float64Array.from({ length: 12_000 }, (_, k) => k * 5e-5);
const curves: Curves = {
  of: new Map(
    [bus, shelf].map((channel) => [
      channel,
      { channel, time_s: times_s, values: times_s.map(shown[channel]) },
    ]),
  ),
  window: { from_s: 0, to_s: 0.6 },
};

/** What instruments write from 0.05 s of the run on; `when`: the time of the run at a sample. */
function recorded(when: (k: number) => number = (k) => 0.05 + k * interval_s): MeasuredColumn[] {
  const random = new Random(5);
  return [bus, shelf].map((channel) => ({
    column: channel,
    channel,
    time_s: Float64Array.from({ length: count }, (_, k) => k * interval_s),
    values: Float64Array.from(
      { length: count },
      (_, k) => shown[channel](when(k)) + noise[channel] * random.gaussian(),
    ),
  }));
}

function changed(channel: string, change: (value: number, k: number) => number): MeasuredColumn[] {
  return recorded().map((column) =>
    column.channel === channel ? { ...column, values: column.values.map(change) } : column,
  );
}

/** The fault that leaves least, where nothing is fitted; none leaves less than it was. */
function found(columns: readonly MeasuredColumn[], stated_s: number | null = null): Weighed | null {
  const measurement = { file: '', sha256: '', columns, remarks: [], warnings: [] };
  const within_s = stated_s === null ? 0.005 : 0;
  const place = { at_s: stated_s ?? 0.05, within_s, rate_ratio: 0, rate_error_ratio: 3e-4 };
  const residuals = residualsOf(measurement, curves, place, [noise[bus], noise[shelf]]);
  const base = { curves, values: [], beside: [] };
  const all = weighedFaults({
    measurement,
    residuals,
    left: residuals.of(curves).left,
    sensitivities: new Matrix(residuals.points.length, 0),
    place,
    later_s: residuals.of(curves).later_s,
    bases: [base, base],
  });
  return all.reduce<Weighed | null>(
    (best, one) => (best === null || one.leaves_ratio < best.leaves_ratio ? one : best),
    null,
  );
}

const half = count / 2;
const values = (channel: string): Float64Array => recorded().find((one) => one.channel === channel)!.values;

describe('weighedFaults() names first', () => {
  test.each<readonly [string, () => MeasuredColumn[], object]>([
    ['a turned sign', () => changed(shelf, (v) => -v), { kind: 'sign', path: shelf, from_s: null }],
    [
      'a sign that turns within',
      () => changed(shelf, (v, k) => (k < half ? v : -v)),
      { kind: 'sign', path: shelf, from_s: expect.closeTo(0.25, 3), to_s: null },
    ],
    [
      'millivolts',
      () => changed(bus, (v) => 1000 * v),
      { kind: 'unit', path: bus, factor: 1000, to_s: null },
    ],
    [
      'millivolts up to a moment',
      () => changed(bus, (v, k) => (k < half ? 1000 * v : v)),
      { kind: 'unit', path: bus, factor: 1000, from_s: null, to_s: expect.closeTo(0.25, 3) },
    ],
    [
      'a gain of 3 %',
      () => changed(shelf, (v) => 1.03 * v),
      { kind: 'gain', path: shelf, gain_ratio: expect.closeTo(1.03, 3), from_s: null },
    ],
    [
      'a gain that changes within',
      () => changed(bus, (v, k) => (k < half ? v : 1.03 * v)),
      { kind: 'gain', path: bus, gain_ratio: expect.closeTo(1.03, 3), from_s: expect.closeTo(0.25, 3) },
    ],
    [
      'a zero that is off',
      () => changed(shelf, (v) => v + 15),
      { kind: 'bias', path: shelf, bias: expect.closeTo(15, 0) },
    ],
    [
      'a zero that drifts',
      () => changed(bus, (v, k) => v + (0.05 * k) / count),
      { kind: 'drift', path: bus, by: expect.closeTo(0.05, 2) },
    ],
    [
      'a zero that wanders',
      () => changed(bus, (v, k) => v + 0.05 * Math.cos((2 * Math.PI * k) / count)),
      { kind: 'wander', path: bus, rms: expect.closeTo(0.035, 2) },
    ],
    [
      'columns that are exchanged',
      () => {
        const [one, other] = recorded();
        return [
          { ...one!, values: other!.values },
          { ...other!, values: one!.values },
        ];
      },
      { kind: 'exchanged', path: bus, other: shelf },
    ],
    [
      'readings at the end of a range',
      () => changed(shelf, (v) => Math.min(v, 190)),
      { kind: 'readings', path: shelf },
    ],
    [
      'a frozen stretch',
      () => changed(shelf, (v, k) => (k > half + 4 && k < half + 40 ? values(shelf)[half + 4]! : v)),
      { kind: 'readings', path: shelf, words: expect.stringMatching(/^frozen/) },
    ],
    [
      'a lone peak',
      () => changed(bus, (v, k) => (k === half ? v + 0.3 : v)),
      { kind: 'readings', path: bus, words: '1 sample stands alone, at 200 ms of the file' },
    ],
    [
      'a stretch of time that is missing',
      () => recorded((k) => 0.05 + k * interval_s + (k < half ? 0 : 0.04)),
      { kind: 'time lost', from_s: expect.closeTo(0.25, 2), later_s: expect.closeTo(0.04, 3) },
    ],
    [
      'a channel behind the other',
      () => {
        const [one, other] = [recorded()[0]!, recorded((k) => 0.05 + (k - 2) * interval_s)[1]!];
        return [one, other];
      },
      // Of two channels each may be the one that is off.
      { kind: 'delay', later_s: expect.closeTo(0.004, 3) },
    ],
    [
      'stamps that jump while readings go on',
      () =>
        recorded().map((column) => ({
          ...column,
          time_s: column.time_s.map((t, k) => (k < half ? t : t + 0.03)),
        })),
      { kind: 'stamps', at_s: expect.closeTo(0.23, 6), by_s: expect.closeTo(0.03, 6) },
    ],
    [
      'a clock that is 1 % fast',
      () => recorded((k) => 0.05 + (k * interval_s) / 1.01),
      { kind: 'clock', fast_ratio: expect.closeTo(0.01, 3) },
    ],
  ])('%s', (_, columns, wanted) => {
    const fault = found(columns());
    expect(fault?.kind === 'delay' ? { ...fault, later_s: Math.abs(fault.later_s) } : fault).toMatchObject(
      wanted,
    );
  });

  test('the place where it was stated wrongly', () => {
    expect(found(recorded(), 0.08)).toMatchObject({
      kind: 'place',
      at_s: expect.closeTo(0.05, 3),
      stated_s: 0.08,
    });
  });

  test('nothing where nothing is wrong', () => {
    expect(found(recorded())).toBeNull();
  });
});
