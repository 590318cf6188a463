/**
 * The engine against the independent integrator (`agreement.test.ts`) through what shelves do: modules that fail,
 * soft starts, the power hold, trips by overload that try again, a line that sags. Tolerances as asked of every clamp
 * and mode change: 0.5 % of a quantity's swing within 1 ms of it, 0.2 % after. Times are brought together into a few
 * milliseconds; nothing else is changed.
 */
import { describe, expect, it } from 'vitest';
import { lockstep, type Parting } from './lockstep.ts';
import { type Changes, shippedWith } from './runs.ts';

const kinds = ['nodes', 'shelves', 'acPower'] as const;
const close = 5e-3;
const after = 2e-3;

/** Around a change at `at_s`, up to `to_s`: within its first millisecond, and after that. */
function compared(changes: Changes, at_s: number, to_s: number, name = 'single-step') {
  const scenario = shippedWith(name, { duration: '12 ms', ...changes });
  const [side] = lockstep(scenario, at_s - 0.1e-3, to_s);
  return { whole: side!.after(at_s - 0.1e-3), later: side!.after(at_s + 1e-3) };
}

function expectWithin(parting: Parting, most: number, of: readonly (keyof Parting)[] = kinds): void {
  for (const kind of of) {
    expect(parting[kind], `${kind} of ${JSON.stringify(parting)}`).toBeLessThan(most);
  }
}

const held: Changes = { 'load.at': '1 ms', 'load.before': '200 kW', 'load.after': '200 kW' };
const beyond: Changes = {
  'load.at': '1 ms',
  'load.edge': '0.5 ms',
  'load.before': '200 kW',
  'load.after': '310 kW',
};
const stubborn: Changes = {
  ...beyond,
  'shelves.overload_level_1': '102 %',
  'shelves.overload_hold_1': '1 ms',
  'shelves.hiccup_off': '4 ms',
  'shelves.soft_start': '2 ms',
};

describe('the engine agrees with an independent integrator', () => {
  it.each([
    ['when two modules of a shelf fail', { ...held, 'events.add': 'module-out S3 count 2 at 1 ms' }, 1, 5],
    ['when all shelves run into their current limits', { ...beyond, 'load.after': '400 kW' }, 1, 4],
    ['when power is held after its time', { ...beyond, 'shelves.sustained_power_time': '1 ms' }, 2, 5],
    ['when shelves trip by overload, one and all', stubborn, 2.5, 5.5],
    ['when they try again softly', { ...stubborn, 'shelves.hiccup_off': '1 ms' }, 3, 6],
  ] as const)('%s', (_, changes, at_ms, to_ms) => {
    const { whole, later } = compared(changes, at_ms * 1e-3, to_ms * 1e-3);
    expectWithin(whole, close);
    expectWithin(later, after);
  });

  it('when a shelf that tripped joins softly', () => {
    const changes = {
      'events.1.at': '1 ms',
      'shelves.soft_start': '3 ms',
      'events.add': 'shelf-join S3 at 3 ms',
    };
    const { whole, later } = compared(changes, 3e-3, 7e-3, 'shelf-trip');
    expectWithin(whole, close);
    expectWithin(later, after);
  });

  it('when the line sags below what the shelves draw', () => {
    const sag = { ...held, 'events.add': 'ac-sag all to 60 % for 1 s at 1 ms' };
    const { whole, later } = compared(sag, 1e-3, 5e-3);
    // The bus moves by microvolts, for the bulk carries it: no swing to compare with.
    expectWithin(whole, close, ['acPower']);
    expectWithin(later, after, ['acPower']);
  });

  it('when the line sags so low that AC counts as lost, and batteries take over', () => {
    const { whole, later } = compared(
      {
        'events.1.at': '1 ms',
        'events.1.to': '50 %',
        'events.1.for': '1 s',
        'shelves.brown_out_time': '0.5 ms',
        'firmware.supervisor.detection': '0.4 ms',
        'firmware.supervisor.signal_latency': '0.1 ms',
        'firmware.handover.start_time': '0.5 ms',
      },
      1.5e-3,
      5e-3,
      'brown-out',
    );
    expectWithin(whole, close, [...kinds, 'batteries']);
    expectWithin(later, after, [...kinds, 'batteries']);
  });

  it('when a load goes at once and the bulk guard stops the inputs', () => {
    const { whole, later } = compared(
      {
        'trays.fitted': 'false',
        'load.at': '1 ms',
        'load.edge': '0.1 ms',
        'load.before': '270 kW',
        'load.after': '30 kW',
        'shelves.bulk_voltage_max': '421 V',
        'shelves.bulk_voltage_resume': '420.9 V',
      },
      1e-3,
      2.5e-3,
    );
    expectWithin(whole, close);
    expectWithin(later, after);
  });
});
