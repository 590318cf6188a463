/**
 * The engine against the independent integrator (`agreement.test.ts`) through what sleds and the power brake do.
 * Tolerances as asked of every clamp and mode change: 0.5 % of a quantity's swing within 1 ms of it, 0.2 % after.
 */
import { describe, expect, it } from 'vitest';
import { lockstep, type Parting, partings } from './lockstep.ts';
import { shippedWith } from './runs.ts';

const close = 5e-3;
const after = 2e-3;

function expectWithin(parting: Parting, most: number): void {
  for (const kind of ['nodes', 'shelves', 'trays', 'acPower'] as const) {
    expect(parting[kind], kind).toBeLessThan(most);
  }
}

describe('the engine agrees with an independent integrator', () => {
  it.each(['0 %', '50 %', '100 %'])('with %s of the load drawn as constant current', (share) => {
    const scenario = shippedWith('single-step', {
      'sleds.constant_current': share,
      'load.at': '1 ms',
      duration: '4 ms',
    });
    const [parting] = partings(scenario, 1e-3, 4e-3, [1]);
    expectWithin(parting!, after);
  });

  it('when the power brake lets 40 % of the load go', () => {
    const scenario = shippedWith('braked-overload', {
      'load.power': '200 kW',
      'firmware.brake.level': '60 %',
      'events.1.at': '0.5 ms',
      'events.2.at': '1 ms',
      duration: '4 ms',
    });
    const [near, far] = [
      partings(scenario, 2e-3, 3e-3, [1], 5e-6, true),
      partings(scenario, 3e-3, 4e-3, [1], 5e-6, true),
    ];
    expectWithin(near[0]!, close);
    expectWithin(far[0]!, after);
  });

  it('while a sled is shorted and when its fuse clears', () => {
    const scenario = shippedWith('sled-short', {
      'events.1.to': '16 mΩ',
      'events.1.at': '1 ms',
      'events.1.for': '1 ms',
      duration: '4 ms',
    });
    // The short is a jump of a node's voltage, which sends a wave of some 25 kHz along the rack bar.
    const [usual, fine] = lockstep(scenario, 0.9e-3, 3e-3, [1, 4]);
    expectWithin(usual!.after(0.9e-3), close);
    expectWithin(usual!.after(2e-3), after);
    // A step that began at the voltage before the jump would be of first order in the nodes: 2 %.
    expect(usual!.after(0.9e-3).nodes).toBeLessThan(1e-3);
    expect(fine!.after(0.9e-3).shelves).toBeLessThan(usual!.after(0.9e-3).shelves / 3);
  });

  it('while the inrush limiter of a sled charges its capacitors', () => {
    const scenario = shippedWith('hot-swap', {
      'events.1.at': '0.5 ms',
      'events.2.at': '1 ms',
      duration: '4 ms',
    });
    const [side] = lockstep(scenario, 0.9e-3, 3.5e-3, [1], 2e-5);
    expectWithin(side!.after(0.9e-3), close);
    expectWithin(side!.after(2e-3), after);
  });

  it('when sleds cut off below their voltage, and restart in a ramp', () => {
    const scenario = shippedWith('single-step', {
      'load.at': '1 ms',
      'sleds.cut_off_voltage': '49 V',
      'sleds.restart_voltage': '49.05 V',
      'sleds.restart_time': '1 ms',
      'sleds.restart_ramp': '2 ms',
      duration: '12 ms',
    });
    // Off at 2.3 ms, on again at 3.4 ms, and full at 5.4 ms; some fall off and come back once more.
    const [side] = lockstep(scenario, 2e-3, 9e-3);
    expectWithin(side!.after(2e-3), close);
    expectWithin(side!.after(4.4e-3), after);
  });
});
