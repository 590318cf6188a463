/** What a supplier must meet, read off the edges of an acceptable region. */
import { describe, expect, it } from 'vitest';
import { usualAcceptance } from '../../../src/studies/gains/accept.ts';
import type { GainsAxis } from '../../../src/studies/gains/axis.ts';
import { boxAbout } from '../../../src/studies/gains/box.ts';
import { recommend } from '../../../src/studies/gains/recommend.ts';
import { requirementsOf } from '../../../src/studies/gains/requirements.ts';
import { shipped } from '../../linear/scenario.ts';

const scenario = shipped('single-step');

const axis = (path: string, numbers: readonly number[], unit: 'time' | 'voltage_gain'): GainsAxis => ({
  path,
  values: numbers.map((x) => (unit === 'time' ? `${1e6 * x} us` : `${x} A/V`)),
  numbers,
  unit: unit as GainsAxis['unit'],
  scale: 'even',
  step: 0,
});

/** Gain down, delay across: high gains bear short delays only, so each bound by itself says less than both. */
const axes = [
  axis('shelves.proportional_gain', [100, 242.857142857, 400, 600, 1000], 'voltage_gain'),
  axis('shelves.control_delay', [0, 1e-5, 2e-5, 3.142857e-5, 4e-5], 'time'),
] as const;
const rows = ['-----', '+++++', '+++++', '+++--', '+----'];
const good = rows.map((row) => [...row].map((sign) => sign === '+'));

describe('the box', () => {
  it('about a point has no point in it that is not acceptable, and one beyond each face', () => {
    for (const [i, row] of good.entries()) {
      for (const [j, ok] of row.entries()) {
        if (!ok) continue;
        const { from, to, points, sides } = boxAbout(axes, good, [i, j]);
        const inside = good.slice(from[0], to[0] + 1).flatMap((line) => line.slice(from[1], to[1] + 1));
        expect(inside.every(Boolean)).toBe(true);
        expect(inside).toHaveLength(points);
        for (const { fails } of sides.flatMap(({ low, high }) => [low, high])) {
          if (fails === null) continue;
          const [x, y] = fails.map(({ value }, k) => axes[k]!.values.indexOf(value)) as [number, number];
          expect(good[x]![y]).toBe(false);
        }
      }
    }
  });

  it('bounds every parameter on both sides to three digits, and says what is not known', () => {
    const recommended = recommend(axes, good, () => 0)!;
    const [gain, delay] = requirementsOf(scenario, recommended, usualAcceptance, null);
    expect(gain!.text).toBe('from 243 A/V to 600 A/V, while shelves.control_delay is from 0 s to 20 µs');
    expect(gain!.why).toMatch(
      /above it fails, at shelves.proportional_gain 1000 A\/V with shelves.control_delay/,
    );
    expect(delay!.why).toMatch(/above it fails, at shelves.proportional_gain 600 A\/V/);
    expect(delay!.test).toContain('expected from 0 s to 20 µs, nominal');
    const whole = recommend(
      axes,
      good.map((row) => row.map(() => true)),
      () => 0,
    )!;
    const [first] = requirementsOf(scenario, whole, usualAcceptance, null);
    expect(first!.why).toMatch(
      /below 100 A\/V the map ends, and nothing is known; above 1 kA\/V the map ends/,
    );
  });
});

describe('a requirement', () => {
  it('on set points is the droop relation: ε = e (R_d + R_line) I_r N/(N − 1) over V', () => {
    const [line] = requirementsOf(scenario, null, usualAcceptance, null);
    const { values } = scenario.shelves[0]!;
    const rated_A = (values.module_count_count * values.module_power_W) / values.rated_voltage_V;
    // The finite gain of the loop adds a little to the droop at rest.
    const { path_resistance_ohm } = scenario.firmware.share;
    const least = (0.05 * (values.droop_ohm + path_resistance_ohm) * rated_A * (8 / 7)) / values.set_point_V;
    const said = Number(/±([\d.]+) %/.exec(line!.text)![1]) / 100;
    expect(said / least).toBeGreaterThan(0.97);
    expect(said / least).toBeLessThan(1.1);
  });
});
