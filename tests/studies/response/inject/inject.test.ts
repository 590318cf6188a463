/** Sines and chirps put into runs of a bench, against the linear curves; all places and six frequencies: `scripts/injected-sines.ts`. */
import { describe, expect, it } from 'vitest';
import { inject } from '../../../../src/studies/response/inject/inject.ts';
import { injectedCsv, injectedLines } from '../../../../src/studies/response/inject/points.ts';
import { planResponse } from '../../../../src/studies/response/plan.ts';
import { readPoints } from '../../../../src/studies/response/points.ts';
import { response } from '../../../../src/studies/response/response.ts';
import { contextHere, messageOf } from '../../here.ts';

const { read, run } = contextHere();
const scenario = 'scenarios/bench-step.yaml';
const planned = (
  point: 'load' | 'current',
  frequencies: string,
  amplitude: string | null = null,
  chirp: string | null = null,
) =>
  planResponse(
    {
      scenario,
      changes: [],
      load_W: 12e3,
      state: [],
      over: null,
      inject: { point, frequencies, chirp, amplitude, clamps: false },
      nodes: [],
      shelf: null,
      points: 5,
      measured: null,
      curve: null,
    },
    read,
  );

describe('a swing in a run', () => {
  it.each(['load', 'current'] as const)(
    'of a sine on the %s is what the linear curve says',
    async (point) => {
      const report = await response.carryOut(planned(point, '250 Hz | 5 kHz'), run);
      expect(report.measured).toHaveLength(point === 'load' ? 4 : 2);
      for (const { error_dB, error_deg } of report.measured) {
        expect(Math.abs(error_dB)).toBeLessThan(0.2);
        expect(Math.abs(error_deg!)).toBeLessThan(2);
      }
      expect(report.injected.every(({ clamp }) => clamp === null)).toBe(true);
      // Its file is one of a bench.
      const points = readPoints('injected.csv', injectedCsv(report.injected), [0.01, 2e4]);
      expect(points.map(({ curve, frequency_Hz, gain_dB }) => [curve, frequency_Hz, gain_dB])).toEqual(
        report.measured.map(({ curve, frequency_Hz, gain_dB }) => [curve, frequency_Hz, gain_dB]),
      );
    },
  );

  it('comes to a clamp where the load swings to zero, and the shelf with it', () => {
    const changes = [{ path: 'events.add', value: 'tray-out T1 at 0 s' }];
    const found = inject(read({ scenario, changes }).scenario, {
      load_W: 4e3,
      state_count: 1,
      point: 'load',
      frequencies_Hz: [20],
      sweep_s: null,
      amplitude: 200,
      clamps_within: 64,
    });
    expect(found.clamp).toBeNull();
    const { from, clamp } = found.clamps!;
    // 4 kW by the load alone; what the capacitances ask for at 20 Hz is far less than the last halving of 200 W.
    expect(from).toBeGreaterThan(3.8e3);
    expect(from).toBeLessThan(4.2e3);
    expect(clamp).toMatchObject({ who: 'S1', what: 'zero', frequency_Hz: 20 });
    expect(injectedLines([found]).at(-1)).toMatch(/^ {2}20\.0 Hz: clamps begin at \d+ W \(S1: zero\)$/);
  });

  it('comes to the limit of a tray, or of an input stage, before that of an output stage', () => {
    const swung = (changes: { path: string; value: string }[], amplitude: number, load_W = 12e3) =>
      inject(read({ scenario, changes }).scenario, {
        load_W,
        state_count: changes.filter(({ path }) => path === 'events.add').length,
        point: 'load',
        frequencies_Hz: [20],
        sweep_s: null,
        amplitude,
        clamps_within: 0,
      }).clamp;
    expect(swung([], 200)).toBeNull();
    expect(swung([{ path: 'trays.power_slew', value: '2 W/ms' }], 200)).toMatchObject({
      who: 'T1',
      what: 'slew',
    });
    expect(swung([{ path: 'trays.bus_current_limit', value: '1 A' }], 200)).toMatchObject({ who: 'T1' });
    // Half of 36 kW may come from the line: 17 kW with their losses, and what a tray that is out leaves to the shelf.
    const half = [
      { path: 'shelves.power_limit', value: '50 %' },
      { path: 'events.add', value: 'tray-out T1 at 0 s' },
    ];
    expect(swung(half, 200, 17e3)).toBeNull();
    expect(swung(half, 2.5e3, 17e3)).toMatchObject({ who: 'S1', what: 'input power' });
  });

  it('of a chirp passes all frequencies in one run', async () => {
    const report = await response.carryOut(planned('load', '100 Hz to 900 Hz in 3', null, '0.4 s'), run);
    expect(report.injected).toHaveLength(1);
    expect(report.measured).toHaveLength(6);
    for (const { error_dB, error_deg } of report.measured) {
      expect(Math.abs(error_dB)).toBeLessThan(0.1);
      expect(Math.abs(error_deg!)).toBeLessThan(1);
    }
    expect(await messageOf(() => planned('load', '20 Hz to 5 kHz in 3', null, '0.4 s'))).toMatch(
      /0\.4 s.*a time from 2 s to 60 s/s,
    );
  });

  it('says where a run and a curve are not the same thing', () => {
    const injected = inject(read({ scenario, changes: [] }).scenario, {
      ...{ load_W: 12e3, point: 'load', amplitude: 200, clamps_within: 0, sweep_s: null },
      frequencies_Hz: [1000],
    });
    expect(injectedLines([injected])[1]).toMatch(
      /^ {2}1000 Hz is not comparable: half the rate of the smoothing/,
    );
  });

  it('reads nothing of a run that loses its bus, and says so', () => {
    const lost = inject(read({ scenario, changes: [] }).scenario, {
      ...{ load_W: 12e3, point: 'current', amplitude: 1e6, clamps_within: 0, sweep_s: null },
      frequencies_Hz: [20],
    });
    expect([lost.lines, lost.clamp!.who]).toEqual([[], 'the bus']);
  });

  it('is refused beyond the range of the curves, and without a height', async () => {
    expect(await messageOf(() => planned('load', '50 kHz'))).toMatch(/50 kHz/);
    expect(await messageOf(() => planned('load', '1 kHz', '3 V'))).toMatch(/a power from 2 mW to 12 kW/);
    // More than the load would have sleds give power; less than the last digits of a run is no signal.
    expect(await messageOf(() => planned('load', '1 kHz', '13 kW'))).toMatch(
      /12 kW, for a load gives no power/,
    );
    expect(await messageOf(() => planned('load', '1 kHz', '1 uW'))).toMatch(/from 2 mW/);
    expect(await messageOf(() => planned('load', '1 kHz', null, '61 s'))).toMatch(
      /write it like --chirp "60 s"/,
    );
  });
});
