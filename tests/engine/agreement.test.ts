/**
 * The engine at its default step against an integrator that shares no method with it: the devices' equations
 * through an explicit extrapolation method of high order (E. Hairer's ODEX, npm package odex) at a tolerance of
 * 1e-9, node voltages from Kirchhoff's current law. What both share is the equations and the firmware, so this
 * proves the stepping, not the models.
 *
 * Tolerances are the accuracy the engine promises: node voltages within 0.2 % of their own swing over the span,
 * shelf currents and AC power within 0.1 %, tray currents within 0.1 % (0.2 % after an instant event). The ODEX
 * itself is good to about 1e-7 of the swing, far below.
 *
 * Spans are short, because an explicit method crawls at the 1e6 1/s poles: the edge of the pulse train and the
 * events are brought forward to the first milliseconds; nothing else is changed.
 */
import { describe, expect, it } from 'vitest';
import { lockstep, type Parting, partings } from './lockstep.ts';
import { shippedWith } from './runs.ts';

const nodes = 2e-3;
const currents = 1e-3;
const afterTrip = 2e-3;

/** Refining all steps fourfold divides a second-order error by sixteen; the graded ladder blurs it somewhat. */
function expectSecondOrder(coarse: Parting, fine: Parting): void {
  for (const kind of ['nodes', 'shelves'] as const) {
    const gain = coarse[kind] / fine[kind];
    expect(gain, `${kind}: ${coarse[kind]} against ${fine[kind]}`).toBeGreaterThan(8);
    expect(gain, `${kind}: ${coarse[kind]} against ${fine[kind]}`).toBeLessThan(30);
  }
}

function expectWithin(parting: Parting, trays: number): void {
  expect(parting.nodes).toBeLessThan(nodes);
  expect(parting.shelves).toBeLessThan(currents);
  expect(parting.trays).toBeLessThan(trays);
  expect(parting.acPower).toBeLessThan(currents);
}

describe('the engine agrees with an independent integrator', () => {
  it('over the rising edge of a pulse, and sixteenfold better with steps a quarter as long', () => {
    // Low until 4 ms, then the edge of the shipped train, 5 ms from 100 to 240 kW.
    const scenario = shippedWith('pulse-train', { 'load.period': '30 ms', duration: '30 ms' });
    const [coarse, fine] = partings(scenario, 4e-3, 11e-3, [1, 4]);
    expectWithin(coarse!, currents);
    expectSecondOrder(coarse!, fine!);
  });

  it('over the 1 ms step, and sixteenfold better with steps a quarter as long', () => {
    const scenario = shippedWith('single-step', { 'load.at': '1 ms', duration: '5 ms' });
    const [coarse, fine] = partings(scenario, 1e-3, 4e-3, [1, 4]);
    expectWithin(coarse!, currents);
    expectSecondOrder(coarse!, fine!);
  });

  it('over the rising edge of a pulse on a bus of 400 V', () => {
    const scenario = shippedWith('pulse-train-400v', { 'load.period': '20 ms', duration: '20 ms' });
    const [parting] = partings(scenario, 4e-3, 8e-3, [1]);
    expectWithin(parting!, currents);
  });

  it('after a shelf trips at once', () => {
    const scenario = shippedWith('shelf-trip', { 'events.1.at': '1 ms', duration: '5 ms' });
    const [parting] = partings(scenario, 1e-3, 4e-3, [1]);
    expectWithin(parting!, afterTrip);
  });

  it('when a link bar opens under load', () => {
    // 430 A die with 0.1 ms, and send a wave along the rack bar that passes each node within a few microseconds.
    const scenario = shippedWith('link-bar-out', {
      start: 'settled',
      'load.period': '60 ms',
      'events.1.at': '1 ms',
      duration: '60 ms',
    });
    const [usual, fine] = lockstep(scenario, 1e-3, 2e-3, [1, 4], 1e-6).map((side) => side.after(1e-3));
    expect(usual!.nodes).toBeLessThan(afterTrip);
    expect(usual!.nodes / fine!.nodes).toBeGreaterThan(3);
    expect(usual!.shelves).toBeLessThan(afterTrip);
    // A tray's current is its power over its node's voltage; it swings by little and takes the node's error with it.
    expect(usual!.trays).toBeLessThan(3e-3);
    expect(usual!.acPower).toBeLessThan(currents);
  });
});
