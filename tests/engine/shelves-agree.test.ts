/**
 * The engine against the independent integrator (`agreement.test.ts`) through what shelves do: modules that fail,
 * soft starts, the power hold, trips by overload that try again, a line that sags. Tolerances as asked of every clamp
 * and mode change: 0.5 % of a quantity's swing within 1 ms of it, 0.2 % after. Times are brought together into a few
 * milliseconds; nothing else is changed.
 */
import { describe, expect, it } from 'vitest';
import { type Parting, partings } from './lockstep.ts';
import { type Changes, shippedWith } from './runs.ts';

const kinds = ['nodes', 'shelves', 'acPower'] as const;
const close = 5e-3;
const after = 2e-3;

/** Around a change at `at_s`, up to `to_s`: within its first millisecond, and after that. */
function compared(changes: Changes, at_s: number, to_s: number, name = 'single-step') {
  const scenario = shippedWith(name, { duration: '12 ms', ...changes });
  const from_s = at_s - 0.1e-3;
  const [whole] = partings(scenario, from_s, to_s, [1], 5e-6, true);
  const [later] = partings(scenario, from_s, to_s, [1], 5e-6, true, at_s + 1e-3);
  return { whole: whole!, later: later! };
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
  'shelves.hiccup_off': '1 ms',
  'shelves.soft_start': '2 ms',
};

describe('the engine agrees with an independent integrator', () => {
  it.each([
    ['when two modules of a shelf fail', { ...held, 'events.add': 'module-out S3 count 2 at 1 ms' }, 1, 5],
    ['when all shelves run into their current limits', { ...beyond, 'load.after': '400 kW' }, 1, 4],
    ['when power is held after its time', { ...beyond, 'shelves.sustained_power_time': '1 ms' }, 2, 5],
    ['when shelves trip by overload, one and all', stubborn, 2, 3],
    ['when they try again softly', stubborn, 3, 6],
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
});
