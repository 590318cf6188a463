/** Sines put into runs of a bench, against the linear curves; all places and six frequencies: `scripts/injected-sines.ts`. */
import { describe, expect, it } from 'vitest';
import { inject } from '../../../../src/studies/response/inject/inject.ts';
import { injectedCsv, injectedLines } from '../../../../src/studies/response/inject/points.ts';
import { planResponse } from '../../../../src/studies/response/plan.ts';
import { readPoints } from '../../../../src/studies/response/points.ts';
import { response } from '../../../../src/studies/response/response.ts';
import { contextHere, messageOf } from '../../here.ts';

const { read, run } = contextHere();
const scenario = 'scenarios/bench-step.yaml';
const planned = (point: 'load' | 'current', frequencies: string, amplitude: string | null = null) =>
  planResponse(
    {
      scenario,
      changes: [],
      load_W: 12e3,
      state: [],
      over: null,
      inject: { point, frequencies, amplitude, clamps: false },
      nodes: [],
      shelf: null,
      points: 5,
      measured: null,
      curve: null,
    },
    read,
  );

describe('a sine in a run', () => {
  it.each(['load', 'current'] as const)('on the %s is what the linear curve says', async (point) => {
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
  });

  it('comes to a clamp where the load swings to zero, and the shelf with it', () => {
    const changes = [{ path: 'events.add', value: 'tray-out T1 at 0 s' }];
    const found = inject(read({ scenario, changes }).scenario, {
      load_W: 4e3,
      state_count: 1,
      point: 'load',
      frequency_Hz: 20,
      amplitude: 200,
      clamps_within: 64,
    });
    expect(found.clamp).toBeNull();
    const { from, clamp } = found.clamps!;
    // 4 kW by the load alone; what the capacitances ask for at 20 Hz is far less than the last halving of 200 W.
    expect(from).toBeGreaterThan(3.8e3);
    expect(from).toBeLessThan(4.2e3);
    expect(clamp!.who).toBe('S1');
    expect(injectedLines([found]).at(-1)).toMatch(/^ {2}20\.0 Hz: clamps begin at \d+ W \(S1\)$/);
  });

  it('is refused beyond the range of the curves, and without a height', async () => {
    expect(await messageOf(() => planned('load', '50 kHz'))).toMatch(/50 kHz/);
    expect(await messageOf(() => planned('load', '1 kHz', '3 V'))).toMatch(/power above 0/);
  });
});
