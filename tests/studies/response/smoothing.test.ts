/** What is said of smoothing: how far it reaches, and what it adds above, against the same bench with its tray stuck. */
import { expect, it } from 'vitest';
import { respond } from '../../../src/studies/response/respond.ts';
import { smoothingOf } from '../../../src/studies/response/smoothing.ts';
import { contextHere } from '../here.ts';

const { read } = contextHere();
const at = { load_W: 12e3, points: 127 };
const scenario = (...events: string[]) =>
  read({
    scenario: 'scenarios/bench-step.yaml',
    changes: events.map((value) => ({ path: 'events.add', value })),
  }).scenario;

it('names where rectifiers swing by more than the load, and how far the bus is raised there', () => {
  const { remarks, curves, nodes } = respond(scenario(), at);
  const [reach, above] = remarks;
  expect(reach).toMatch(/^Smoothing reaches to \d+ Hz\. A command is 1\.4 ms old/);
  const found =
    /most at (\S+) Hz: \S+ times \(\+(\S+) dB\); the impedance at (\S+) is \S+ times \(\+(\S+) dB\) .* at (\S+) Hz\.$/.exec(
      above!,
    );
  const [peak_Hz, gain_dB, , raised_dB, raised_Hz] = found!.slice(1).map(Number);
  const valueAt = (of: typeof curves, name: string, f: number): number => {
    const curve = of.find((one) => one.name === name)!;
    const k = curve.frequency_Hz.findIndex((one) => Math.abs(one / f - 1) < 1e-3);
    return curve.gain_dB[k]!;
  };
  const swing = curves.find(({ name }) => name === 'load to rectifier current')!;
  const most = Math.max(...swing.gain_dB.map((gain) => gain!));
  expect(gain_dB).toBeCloseTo(most, 1);
  expect(valueAt(curves, swing.name, peak_Hz!)).toBe(most);
  const stuck = respond(scenario('tray-stuck T1 to 0 kW at 0 s'), { ...at, state_count: 1 });
  const impedance = `impedance at ${nodes[0]}`;
  expect(valueAt(curves, impedance, raised_Hz!) - valueAt(stuck.curves, impedance, raised_Hz!)).toBeCloseTo(
    raised_dB!,
    1,
  );
});

it('says that the load is followed in full where nothing goes beyond it, and nothing without trays', () => {
  const one = scenario();
  const smoothed = { frequency_Hz: [1, 10, 100, 1000], node: 'n', raised_dB: [0, 0, 0, 0] };
  expect(smoothingOf(one, { ...smoothed, gain_dB: [-6, -20, 0.1, -1] })[1]).toBe(
    'Above, the rectifiers follow the load in full.',
  );
  expect(smoothingOf(one, { ...smoothed, gain_dB: [-6, -20, -3, -1] })).toEqual([]);
  expect(smoothingOf({ ...one, trays: [] }, { ...smoothed, gain_dB: [-6, -20, 3, -1] })).toEqual([]);
});
