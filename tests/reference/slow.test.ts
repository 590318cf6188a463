/**
 * The slow pass against published constants and closed forms. Adiabatic: IEC 60364-5-54, annex A, k = √(Q_c (β + 20 °C)/ρ_20)
 * √(ln((β + θ_f)/(β + θ_i))) with β = 234.5 °C; its table and 4-43 print 143 for 30 to 160 °C and so on, in whole numbers. Our α of
 * IEC 60028 is 0.00393/K, its 1/(β + 20 °C) 0.003929: 2e-4 of a rise. Thermal time constants: heat of copper over what *Copper for
 * Busbars* (CDA publication 22, 1996) gives off, worked by hand.
 */
import { describe, expect, it, test } from 'vitest';
import { steadyRise_K } from '../../src/copper/rating.ts';
import { poleRating_A, thermalTime_s } from '../../src/copper/warming.ts';
import { barHeat } from '../../src/slow/bar-heat.ts';
import { jointHeat, jointRise_K } from '../../src/slow/joint-heat.ts';
import { cellLife_s, wornIn } from '../../src/slow/life.ts';
import { march } from '../../src/slow/march.ts';
import { published } from './published.ts';

const adiabatic = published({
  what: 'adiabatic constant of copper, current over section and √time',
  source: 'IEC 60364-5-54, annex A and table 43A, from memory',
  unit: 'A √s/mm²',
});
const times = published({
  what: 'thermal time of a flat bar in still air',
  source: 'IEC 60028, IEC 60364-5-54, Copper for Busbars; by hand',
  unit: 's',
});
const heated = published({
  what: 'copper heated adiabatically',
  source: 'IEC 60364-5-54, annex A, closed form',
  unit: '°C',
});

const bars = (width_m: number, thickness_m: number) => ({
  ...{ width_m, thickness_m, count: 1, gap_m: 0.02, length_m: 1, temperature_degC: 65 },
});

/** 100 by 10 mm, in air of this temperature. */
function bar(air_temperature_degC: number) {
  const one = bars(0.1, 0.01);
  return { rated_current_A: poleRating_A(one), thermal_time_s: thermalTime_s(one), air_temperature_degC };
}

test('thermal times follow from heat and rating', () => {
  times({ which: '100 × 10 mm', expected: 1955, found: thermalTime_s(bars(0.1, 0.01)), tolerance: 5e-4 });
  times({ which: '100 × 6.3 mm', expected: 1265, found: thermalTime_s(bars(0.1, 0.0063)), tolerance: 5e-4 });
});

test('a bar under a current of seconds warms up as copper without cooling', () => {
  const rise = (at_degC: number, A: number, s: number): number =>
    at_degC + march(barHeat(bar(at_degC), A)!, 0, s, 1e-6);
  // 1000 mm²; cooling takes 1e-4 of it in a second.
  heated({
    which: '100 A/mm² for 1 s from 20 °C',
    expected: 75.218,
    found: rise(20, 100e3, 1),
    tolerance: 5e-4,
  });
  heated({
    which: '50 kA in 1000 mm² for 1 s from 70 °C',
    expected: 85.321,
    found: rise(70, 50e3, 1),
    tolerance: 5e-4,
  });
});

test('the adiabatic constants of the tables', () => {
  for (const [from, to, k] of [
    [30, 160, 143],
    [30, 250, 176],
    [30, 200, 159],
    [30, 500, 228],
    [70, 160, 115],
    [90, 250, 143],
  ] as const) {
    const ends = (A_per_mm2: number): number =>
      from + march(barHeat(bar(from), 1000 * A_per_mm2)!, 0, 1, 1e-6);
    let [low, high] = [50, 400];
    for (let n = 0; n < 40; n++) {
      const middle = (low + high) / 2;
      if (ends(middle) < to) low = middle;
      else high = middle;
    }
    adiabatic({ which: `${from} to ${to} °C`, expected: k, found: low, tolerance: 0.5 / k });
  }
});

describe('a bar', () => {
  it('ends at the steady rise of its rating, from below and from above', () => {
    for (const A of [500, 1262, 2003, 3000]) {
      const steady = steadyRise_K(A, bar(40).rated_current_A);
      for (const from of [0, 150])
        expect(march(barHeat(bar(40), A)!, from, 1e6, 1e-6)).toBeCloseTo(steady, 4);
    }
  });

  it('is within 2 % of a first-order rise near its rating', () => {
    // dT = 50 K (1 − e^(−t/τ)) with τ and loss of 90 °C; colder copper takes up less, and less is given off per kelvin.
    const { thermal_time_s, rated_current_A } = bar(40);
    const rise = march(barHeat(bar(40), rated_current_A)!, 45, 600, 1e-6);
    const first = 50 - 5 * Math.exp((-600 * 1.22) / thermal_time_s);
    expect(Math.abs(rise - first)).toBeLessThan(0.02 * 50);
  });

  it('warms up by less in minutes on batteries than it would for good', () => {
    const heat = barHeat(bar(40), 2500)!;
    const [transient, steady] = [march(heat, 20, 180, 1e-6), steadyRise_K(2500, bar(40).rated_current_A)];
    expect(steady).toBeCloseTo(71.9, 0);
    expect(transient).toBeGreaterThan(24);
    expect(transient).toBeLessThan(28);
  });
});

describe('a joint', () => {
  const joint = { thermal_K_per_W: 0.5, joint_ohm: 5e-6, time_s: 1955 };

  it('ends at R_thj R I²/(1 − α R_thj R I²)', () => {
    expect(march(jointHeat(joint, 2000), 0, 1e6, 1e-6)).toBeCloseTo(
      jointRise_K(0.5, 5e-6, 2000).steady_K!,
      9,
    );
  });

  it('that runs away doubles in a time of its own: τ/(α R_thj R I² − 1)', () => {
    const bad = { ...joint, joint_ohm: 255e-6 };
    // Cold 510 K: α 510 − 1 = 1.0043; θ = 510/1.0043 (e^(1.0043 t/τ) − 1).
    const rate = 0.00393 * 510 - 1;
    const expected = (510 / rate) * (Math.exp((rate * 1955) / 1955) - 1);
    expect(march(jointHeat(bad, 2000), 0, 1955, 1e-6)).toBeCloseTo(expected, 6);
  });
});

test('wear adds: half a life warm and half a life 10 K cooler', () => {
  const year_s = 31_557_600;
  const perSecond = 1 / year_s;
  expect(wornIn(year_s / 2, perSecond, [65, 65, 65], 65)).toBeCloseTo(0.5, 12);
  expect(wornIn(year_s, perSecond, [55, 55, 55], 65)).toBeCloseTo(0.5, 12);
  // 1500 h at 65 °C and 2.7 V become 10 140 h at 45 °C and 2.5 V; the same by rate.
  const rated = { life_s: 1500 * 3600, temperature_degC: 65, voltage_V: 2.7 };
  const atRated = 1 / cellLife_s(rated, 65)(2.5);
  expect(1 / wornIn(3600, atRated, [45, 45, 45], 65)).toBeCloseTo(10_140, 6);
});
