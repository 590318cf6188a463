/**
 * Cabinets whose trays and banks have a slow branch: the independent integrator (see agreement.test.ts), the energy audit, the
 * compiled kernel and the start, at rest and in a cycle. Closed forms: tests/reference/slow-branch.test.ts.
 */
import { expect, it } from 'vitest';
import { ready } from '../../src/engine/cabinet.ts';
import { SlowStates } from '../../src/engine/cycle/slow-states.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { partings } from './lockstep.ts';
import { type Changes, shippedWith, simulated } from './runs.ts';

const branches: Changes = {
  'trays.slow_share': '10 %',
  'trays.slow_time': '20 ms',
  'banks.slow_share': '15 %',
  'banks.slow_time': '10 ms',
};
const step: Changes = { ...branches, 'load.at': '1 ms', duration: '5 ms' };

it.each([
  ['through a step', {}],
  ['while half a bank opens', { 'events.add': 'bank-out K1 at 1.2 ms by 50 %' }],
  ['while a bank opens whole', { 'events.add': 'bank-out K1 at 1.2 ms' }],
] as const)('agrees with an independent integrator %s', (_, changes) => {
  const [parting] = partings(shippedWith('single-step', { ...step, ...changes }), 1e-3, 4e-3, [1]);
  expect(parting!.nodes).toBeLessThan(2e-3);
  expect(parting!.shelves).toBeLessThan(2e-3);
  expect(parting!.trays).toBeLessThan(2e-3);
});

it.each([
  ['by themselves', {}],
  ['while half a bank opens', { 'events.add': 'bank-out K1 at 0.12 s by 50 %' }],
  ['while a bank opens whole', { 'events.add': 'bank-out K1 at 0.12 s' }],
  ['while a bank shorts and burns open', { 'events.add': 'bank-short K1 at 0.12 s for 1 ms' }],
] as const)('energy closes %s', (_, changes) => {
  const { audit } = simulated('single-step', { ...branches, ...changes, duration: '0.3 s' });
  expect(Math.abs(audit.residual_loss_ratio)).toBeLessThan(1e-5);
  const lost_J = audit.rows
    .filter(({ cause }) => cause === 'slow branch')
    .reduce((sum, { energy_J }) => sum + energy_J, 0);
  expect(lost_J).toBeGreaterThan(0.01);
});

it('runs the same compiled and plain', () => {
  const scenario = shippedWith('single-step', { ...branches, duration: '0.15 s' });
  const [fast, plain] = (['fast', 'plain'] as const).map((kernel) =>
    simulate(assemble(scenario), makeDemand(scenario), { levels_V: new Float64Array(), kernel }),
  );
  expect(fast!.extremes).toEqual(plain!.extremes);
  expect(fast!.audit).toEqual(plain!.audit);
});

it('begins level with the capacitance beside it', () => {
  const scenario = shippedWith('single-step', branches);
  const { network, stepper } = ready(assemble(scenario), makeDemand(scenario), 1);
  const { trays, trayBranches, banks, bankBranches } = network;
  expect(trayBranches.count).toBe(trays.count);
  for (let k = 0; k < trays.count; k++)
    expect(stepper.x0[trayBranches.place('voltage_V', k)]).toBe(trays.voltage_V(k, stepper.x0));
  expect(stepper.x0[bankBranches.place('voltage_V', 1)]).toBe(stepper.x0[banks.place('voltage_V', 1)]);
});

it('a cycle is sought in the slow branches too', () => {
  const scenario = shippedWith('pulse-train', { ...branches, 'trays.slow_time': '3 s' });
  const cabinet = ready(assemble(scenario), makeDemand(scenario), 1);
  const { trays, trayBranches } = cabinet.network;
  const slow = new SlowStates(cabinet, 1.5 / scenario.tick_s);
  const states = slow.read();
  expect(states.length).toBe(1 + 2 * trays.count + trayBranches.count);
  states[states.length - 1]! -= 0.01;
  slow.write(states);
  const last = trayBranches.count - 1;
  expect(cabinet.stepper.x0[trayBranches.place('voltage_V', last)]).toBeCloseTo(states.at(-1)! * 43.2, 12);
});
