/**
 * Suppressors at the sleds of the reference cabinet: their law at hand values, a load dump against the independent
 * integrator (agreement.test.ts), both forms of the kernel, and the audit.
 */
import { describe, expect, it } from 'vitest';
import { Suppressors } from '../../../src/devices/suppressor/suppressor.ts';
import { simulate } from '../../../src/engine/simulate.ts';
import { makeDemand } from '../../../src/loads/make-demand.ts';
import { assemble } from '../../../src/network/network.ts';
import { partings } from '../../engine/lockstep.ts';
import { busOf, type Changes, shippedWith } from '../../engine/runs.ts';

const dump: Changes = {
  'load.before': '240 kW',
  'load.after': '100 kW',
  'load.at': '1 ms',
  duration: '20 ms',
};
const fitted: Changes = {
  ...dump,
  'sleds.suppressor_voltage': '50.5 V',
  'sleds.suppressor_resistance': '5 mohm',
};

function run(changes: Changes, kernel: 'fast' | 'plain' = 'fast') {
  const scenario = shippedWith('single-step', changes);
  return simulate(assemble(scenario), makeDemand(scenario), { levels_V: new Float64Array(), kernel });
}

describe('a suppressor', () => {
  it('takes nothing up to its breakdown, and above it what its resistance lets through', () => {
    const one = (value: number): Float64Array => Float64Array.of(value);
    const suppressors = new Suppressors(
      {
        names: ['s'],
        node: Int32Array.of(0),
        suppressor_voltage_V: one(58),
        suppressor_resistance_ohm: one(0.02),
        suppressor_cooling_s: one(2),
        suppressor_energy_J: one(20),
      },
      0,
    );
    expect(suppressors.taken_A(0, 58)).toBe(0);
    expect(suppressors.taken_A(0, 58.5)).toBeCloseTo(25, 9);
    // 60 V: 100 A, 6 kW in; 10 J that cool with 2 s give off 5 W.
    const dx = new Float64Array(1);
    suppressors.flow(dx, Float64Array.of(10), Float64Array.of(60));
    expect(dx[0]).toBeCloseTo(6000 - 5, 9);
  });

  it('holds a load dump down, as the independent integrator has it', () => {
    const [parting] = partings(shippedWith('single-step', fitted), 1e-3, 4e-3, [1]);
    expect(parting!.nodes).toBeLessThan(2e-3);
    expect(parting!.shelves).toBeLessThan(2e-3);
    const [without, held] = [dump, fitted].map((changes) => busOf(run(changes)).max);
    expect(held!).toBeLessThan(without! - 0.1);
    expect(held!).toBeGreaterThan(50.5);
  });

  it('closes the audit, and gives the same bits compiled and plain', () => {
    const [fast, plain] = [run(fitted), run(fitted, 'plain')];
    const taken = fast.audit.rows.filter(({ cause }) => cause === 'suppressor');
    expect(taken).toHaveLength(16);
    expect(taken.every(({ energy_J }) => energy_J > 0)).toBe(true);
    expect(Math.abs(fast.audit.residual_ratio)).toBeLessThan(1e-6);
    expect(plain.audit).toEqual(fast.audit);
    expect(plain.recording.max).toEqual(fast.recording.max);
  });
});
