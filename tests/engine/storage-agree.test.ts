/**
 * The independent integrator (see agreement.test.ts) through what happens to banks and trays: strings that open, a
 * whole bank that opens, a tray that sticks, a dead time, a ramp-limited source at its clamp.
 */
import { describe, expect, it } from 'vitest';
import { partings } from './lockstep.ts';
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
});
