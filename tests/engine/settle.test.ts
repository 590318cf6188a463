/**
 * The settled start. Tolerances: Newton finds node voltages and trims to 1e-11 V; over a bar of 17.5 nH that
 * leaves a current slope below 1e-2 A/s, over a capacitor of 0.12 µs a voltage slope below 1e-3 V/s. A run from
 * there may wander by what the share loop and the trays make of such residues: 1 µV is asked for.
 */
import { describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { ready } from '../../src/engine/cabinet.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith, simulated, swingAfter } from './runs.ts';

/** Trims without quantum: a rounded trim cannot stand where the share loop rests. */
const fineTrims = { 'firmware.share.trim_quantum': '0 V' } as const;

function refusal(name: string, changes: Readonly<Record<string, string>>): string {
  const scenario = shippedWith(name, changes);
  try {
    ready(assemble(scenario), makeDemand(scenario), 1);
  } catch (error) {
    if (error instanceof BadInput) return error.message;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('the settled start', () => {
  it('has no slope in any state and no net current into any node', () => {
    const scenario = shippedWith('idle', { ...fineTrims, 'load.power': '200 kW' });
    const { network, stepper } = ready(assemble(scenario), makeDemand(scenario), 1);
    const { x0, v0 } = stepper;
    const dx = new Float64Array(network.stateCount);
    for (const device of network.devices) device.flow(dx, x0, v0);
    const slope: Record<string, number> = {};
    for (const device of network.devices) {
      device.states.forEach((state, s) => {
        const from = device.offset + s * device.count;
        const most = dx.subarray(from, from + device.count).reduce((m, d) => Math.max(m, Math.abs(d)), 0);
        slope[`${device.kind} ${state}`] = most;
      });
    }
    expect(slope['bar current_A']).toBeLessThan(1e-2);
    expect(slope['bank current_A']).toBeLessThan(1e-2);
    expect(slope['capacitor voltage_V']).toBeLessThan(1e-3);
    expect(slope['bank voltage_V']).toBe(0);
    // 276 A/V over a lag of 20 µs: 1e-11 V is 1.4e-4 A/s.
    expect(slope['stage current_A']).toBeLessThan(1e-2);
    expect(slope['stage integrator_A']).toBe(0);
    expect(slope['tray power_W']).toBe(0);
    expect(slope['tray capacitor_V']).toBeLessThan(1e-12);
    expect(slope['intake bulk_V']).toBeLessThan(1e-9);
    expect(slope['sled power_W']).toBe(0);
    expect(slope['pack charge_ratio']).toBe(0);

    const into = new Float64Array(network.nodeCount);
    for (const device of network.devices) device.inject(into, x0, v0);
    expect(into.reduce((most, i) => Math.max(most, Math.abs(i)), 0)).toBeLessThan(1e-6);
  });

  it('stays where it is: every node voltage within 1 µV for 2 s', () => {
    const result = simulated('idle', { ...fineTrims, 'load.power': '200 kW', duration: '2 s' });
    // The record keeps single precision, 4 µV at 50 V: the extremes are exact.
    const nodes = result.recording.channels.filter(({ kind }) => kind === 'node-voltage').map(({ id }) => id);
    const swings = result.extremes.filter(({ channel }) => nodes.includes(channel)).map((e) => e.max - e.min);
    expect(swings.length).toBeGreaterThan(50);
    expect(Math.max(...swings)).toBeLessThan(1e-6);
  });

  it('with rounded trims hunts by less than two quanta', () => {
    const result = simulated('idle', { 'load.power': '200 kW', duration: '2 s' });
    const hunting = swingAfter(result, 0);
    expect(hunting).toBeGreaterThan(1e-6);
    expect(hunting).toBeLessThan(0.02);
  });

  it('starts a converged cycle whose end is its beginning', () => {
    const result = simulated('pulse-train', { duration: '1.6 s' });
    expect(result.counters.cycles_to_converge).toBeGreaterThan(0);
    const { channels, min, max, bucketCount } = result.recording;
    // A steady cycle neither fills nor empties the trays: below 0.01 % of the window over one period.
    channels.forEach(({ kind }, c) => {
      if (kind !== 'tray-charge') return;
      const from = (min[c]![0]! + max[c]![0]!) / 2;
      const to = (min[c]![bucketCount - 1]! + max[c]![bucketCount - 1]!) / 2;
      expect(Math.abs(to - from)).toBeLessThan(1e-4);
    });
  });
});

describe('a load without an operating point is refused', () => {
  it('when shelves would need more from AC than they may take', () => {
    expect(refusal('idle', { 'load.power': '330 kW' })).toMatchInlineSnapshot(`
      "load
        found     a start at 330.0 kW, for which S1 needs 42.6 kW from AC
        expected  no more than its input power limit of 39.6 kW
        mend      lower the load, or add shelves
      1 problem. Nothing was run."
    `);
  });

  it('when the bus cannot stand', () => {
    expect(refusal('idle', { 'load.power': '2 MW' })).toMatchInlineSnapshot(`
      "load
        found     a start at 2000.0 kW, where sled-1 would sit at 6.64 V
        expected  an operating point with every sled above 44 V
        mend      lower the load, or add shelves or bars
      1 problem. Nothing was run."
    `);
  });

  it.each(['20 MW', '328.7 MW', '1 GW'])('when the search for one does not come to rest: %s', (power) => {
    expect(refusal('idle', { 'load.power': power })).toContain(
      'for which no voltages were found at which the bus rests',
    );
  });
});
