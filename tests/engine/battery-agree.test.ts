/**
 * The engine against the independent integrator (`agreement.test.ts`) through what battery shelves do. Tolerances as
 * asked of every clamp and mode change: 0.5 % of a quantity's swing within 1 ms of it, 0.2 % after. Times are
 * brought together into a few milliseconds; nothing else is changed. States of the packs swing by parts in a million
 * of their size in that time, and are held to the same shares of it.
 */
import { describe, expect, it } from 'vitest';
import { lockstep, type Parting, partings } from './lockstep.ts';
import { type Changes, shippedWith } from './runs.ts';

const close = 5e-3;
const after = 2e-3;
const kinds = ['nodes', 'shelves', 'batteries', 'packs', 'acPower'] as const;
/** AC power has died away by then, and has no swing to compare with. */
const settled = ['nodes', 'shelves', 'batteries', 'packs'] as const;

/** AC lost at 0.5 ms, told at 1 ms, batteries carry at 1.5 ms. */
const soon: Changes = {
  duration: '6 ms',
  'events.1.at': '0.5 ms',
  'events.2.at': '5 ms',
  'firmware.supervisor.detection': '0.4 ms',
  'firmware.supervisor.signal_latency': '0.1 ms',
  'firmware.handover.start_time': '0.5 ms',
};
/** Shelves wait for a millisecond at most, then charge in a ramp of 1 ms. */
const charging: Changes = {
  'batteries.charge': '90 %',
  'firmware.handover.return_time': '0 s',
  'firmware.handover.charge_wait_min': '0.1 ms',
  'firmware.handover.charge_wait_max': '1 ms',
  'firmware.handover.charge_period': '0.5 ms',
  'firmware.handover.charge_latency': '0.5 ms',
  'firmware.handover.charge_ramp': '1 ms',
};

function compared(changes: Changes, from_s: number, to_s: number): Parting {
  return partings(shippedWith('ac-loss-and-return', changes), from_s, to_s, [1], 5e-6, true)[0]!;
}

function expectWithin(parting: Parting, most: number, of: readonly (keyof Parting)[] = kinds): void {
  for (const kind of of) expect(parting[kind], `${kind} of ${JSON.stringify(parting)}`).toBeLessThan(most);
}

describe('the engine agrees with an independent integrator', () => {
  it('when batteries take the load over from rectifiers that run on their bulk', () => {
    expectWithin(compared(soon, 0.4e-3, 2.5e-3), close);
    // From just before the take-over, so that the swing is its own.
    expectWithin(compared(soon, 1.4e-3, 4e-3), after, settled);
  });

  it('while shelves begin to charge, and when a loss of AC turns them round', () => {
    const changes = { ...soon, ...charging, 'events.1.at': '4 ms', duration: '7 ms' };
    expectWithin(compared(changes, 1e-3, 4e-3), close);
    expectWithin(compared(changes, 3.9e-3, 6e-3), close);
    expectWithin(compared(changes, 6e-3, 7e-3), after, settled);
  });

  it('when batteries reach the lower end of their charge and stop', () => {
    // At about 45 kW of 36 kJ a shelf loses 0.13 % of its charge in a millisecond.
    const changes = { ...soon, 'batteries.energy': '0.01 kWh', 'batteries.charge': '5.1 %' };
    const [side] = lockstep(
      shippedWith('ac-loss-and-return', { ...changes, 'batteries.voltage_min': '0 %' }),
      0.4e-3,
      4.5e-3,
    );
    expectWithin(side!.after(0.4e-3), close);
    expectWithin(side!.after(3e-3), after);
  });

  it('while trays assist until the batteries carry', () => {
    const changes = { ...soon, 'firmware.smoothing.on_ac_loss': 'assist' };
    const parting = compared(changes, 0.4e-3, 2.5e-3);
    expectWithin(parting, close);
    expect(parting.trays).toBeLessThan(close);
    expectWithin(compared(changes, 1.4e-3, 4e-3), after, settled);
  });

  it('while batteries share what they carry', () => {
    const changes = {
      ...soon,
      'firmware.share.batteries': 'share',
      'firmware.share.period': '1 ms',
      'firmware.share.latency': '1 ms',
      'batteries.B2.droop': '1 mohm',
    };
    expectWithin(compared(changes, 0.4e-3, 2.5e-3), close);
    expectWithin(compared(changes, 1.4e-3, 5e-3), after, settled);
  });
});
