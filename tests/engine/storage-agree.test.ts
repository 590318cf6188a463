/**
 * The independent integrator (see agreement.test.ts) through what happens to banks and trays: strings that open, a
 * whole bank that opens, a tray that sticks, a dead time, a ramp-limited source at its clamp.
 */
import { describe, expect, it } from 'vitest';
import { lockstep, partings } from './lockstep.ts';
import { type Changes, shippedWith } from './runs.ts';

const step: Changes = { 'load.at': '1 ms', duration: '5 ms' };

describe('the engine agrees with an independent integrator', () => {
  it.each([
    ['while half a bank opens', { 'events.add': 'bank-out K1 at 1.2 ms by 50 %' }],
    ['while a bank opens whole', { 'events.add': 'bank-out K1 at 1.2 ms' }],
    ['while a tray sticks', { 'events.add': 'tray-stuck T1 at 1.2 ms to -20 kW' }],
    ['through a dead time', { 'trays.dead_time': '0.5 ms' }],
    ['with a ramp-limited source at its clamp', { 'firmware.smoothing.reference': 'source-ramp' }],
    ['with feedback on the source', { 'firmware.smoothing.reference': 'source-high-pass' }],
    ['while a share signal is stuck', { 'events.add': 'signal-stuck share at 0.5 ms to 0' }],
  ] as const)('%s', (_, changes) => {
    const [parting] = partings(shippedWith('single-step', { ...step, ...changes }), 1e-3, 4e-3, [1]);
    expect(parting!.nodes).toBeLessThan(2e-3);
    expect(parting!.shelves).toBeLessThan(2e-3);
    expect(parting!.trays).toBeLessThan(2e-3);
    expect(parting!.acPower).toBeLessThan(1e-3);
  });

  it('from a bolted short of a bank through 0 V, with trays that give all they can', () => {
    // Long after the run has ended as collapsed: the fold-back of trays and sleds holds at any voltage.
    const scenario = shippedWith('bank-short', {
      'events.1.at': '1 ms',
      'events.add': 'tray-stuck T1 at 0.5 ms to 20 kW',
      duration: '6 ms',
    });
    const [side] = lockstep(scenario, 0.9e-3, 3.5e-3);
    const parting = side!.after(0.9e-3);
    for (const kind of ['nodes', 'shelves', 'trays', 'acPower'] as const) {
      expect(parting[kind], kind).toBeLessThan(2e-3);
    }
  });
});
