/** States of a cabinet reach its linear model: each is seen in what it must change, and in nothing less. */
import { describe, expect, it } from 'vitest';
import { statesOf } from '../../../../src/studies/response/over/states.ts';
import { contextHere, messageOf } from '../../here.ts';
import { marginsOf, scenario } from './here.ts';

const built = marginsOf([]);
const names = (found: ReturnType<typeof marginsOf>): string[] => found.loops.map(({ name }) => name);
const gainOf = (found: ReturnType<typeof marginsOf>, name: string): number =>
  found.loops.find((loop) => loop.name === name)!.gain_margin_dB!;

describe('a state that has come to stay', () => {
  it('takes a shelf out: one voltage loop is left, and no share', () => {
    expect(names(built)).toContain('share loops');
    const out = marginsOf(['shelf-trip S2']);
    expect(names(out)).toEqual(['voltage loop of S1', 'power loop of S1', 'smoothing loop']);
    expect(gainOf(out, 'voltage loop of S1')).not.toBeCloseTo(gainOf(built, 'voltage loops'), 1);
  });

  it('takes trays out: no loop of theirs is left', () => {
    expect(names(built)).toContain('smoothing loop');
    expect(names(marginsOf(['tray-out T1']))).not.toContain('smoothing loop');
  });

  it('takes a bank out: the bus is less well damped', () => {
    const out = marginsOf(['bank-out K1']);
    expect(names(out)).toEqual(names(built));
    expect(Math.abs(gainOf(out, 'voltage loops') - gainOf(built, 'voltage loops'))).toBeGreaterThan(0.1);
  });

  it('opens the tie: as a cabinet that is built with it open', () => {
    const open = marginsOf(['bar-out tie']);
    const without = marginsOf([], [{ path: 'bars.tie.closed', value: 'no' }]);
    const gain_dB = gainOf(open, 'voltage loops');
    expect(gain_dB).toBeCloseTo(gainOf(without, 'voltage loops'), 6);
    expect(Math.abs(gain_dB - gainOf(built, 'voltage loops'))).toBeGreaterThan(0.01);
  });

  it('leaves battery shelves carrying, all or those that have not failed; what they give away is no instability', () => {
    const all = marginsOf(['ac-loss all']);
    expect(names(all)).toContain('battery voltage loops');
    expect(all.growing).toBeNull();
    expect(names(all).some((name) => /power|share|smoothing|^voltage/.test(name))).toBe(false);
    expect(names(marginsOf(['ac-loss all', 'battery-fail B1']))).toEqual(['battery voltage loop of B2']);
  });

  it('has the gain margin of the battery shelves at which a mode grows', () => {
    const margin_dB = gainOf(marginsOf(['ac-loss all']), 'battery voltage loops');
    const times = (dB: number): ReturnType<typeof marginsOf> => {
      const { values } = contextHere().read({ scenario, changes: [] }).scenario.batteries[0]!;
      const factor = 10 ** (dB / 20);
      return marginsOf(
        ['ac-loss all'],
        [
          { path: 'batteries.proportional_gain', value: `${factor * values.proportional_gain_A_per_V} A/V` },
          { path: 'batteries.integral_gain', value: `${factor * values.integral_gain_A_per_Vs} A/(V s)` },
        ],
      );
    };
    expect(times(margin_dB - 0.1).growing).toBeNull();
    expect(times(margin_dB + 0.1).growing?.frequency_Hz).toBeGreaterThan(1e3);
  });

  it('may leave no settled point, and says why', () => {
    expect(marginsOf(['shelf-trip S1', 'shelf-trip S2']).reason).toMatch(/start|operating|no /);
  });

  it('is refused where nothing rests, or nobody feels it', async () => {
    const refused = (state: string): string => marginsOf([state]).reason ?? '';
    expect(refused('ac-return all')).toMatch(/walk-in/);
    expect(refused('ac-sag all to 70 % for 1 s')).toMatch(/nothing rests/);
    expect(refused('battery-fail B1')).toMatch(/add ac-loss all/);
    expect(await messageOf(() => marginsOf(['tray-out T9']))).toMatch(/T9/);
  });
});

it('states of a cabinet are those of its own units, with what is not asked and why', () => {
  const { asked, not_asked } = statesOf(contextHere().read({ scenario, changes: [] }));
  expect(asked).toEqual([
    [],
    ['shelf-trip S1'],
    ['tray-out T1'],
    ['bank-out K1'],
    ['bar-out tie'],
    ['bar-out L1'],
    ['ac-loss all'],
    ['ac-loss all', 'battery-fail B1'],
  ]);
  expect(not_asked.map(({ state }) => state)).toEqual([
    'walk-in of a shelf (ac-return, shelf-join)',
    'AC lost on one feeder',
  ]);
});
