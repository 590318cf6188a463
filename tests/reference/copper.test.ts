/**
 * Rows of published tables of copper bars, through what a scenario's bars are worked out by. Those of bars in millimetres that
 * `tests/copper/bars.test.ts` and `heat.test.ts` hold are not here again.
 *
 * - Resistance over that at 20 °C: 0.00393/K at constant mass, IEC 60028. Heat conductivity 394 and 385 W/(m K) at 20 and 100 °C: a
 *   table of the Copper Development Association (2001); ours lies between.
 * - Ratings in inches, 30 K over 40 °C, flat bars on edge, direct current, and by emissivity: a table of the Copper Development
 *   Association, which calls its values about 10 % above those of most handbooks. Scanned; soft.
 * - Multiples of laminated bars, 0.61th power: *Copper for Busbars*, CDA publication 22, 1996, section 10 (from memory).
 * - Rise at a constant heat conductance G: dT = I² R_40/(G − I² R_20 α), worked by hand from G = 1.7644 W/(K m).
 * - Inductance of a straight bar, 2·10⁻⁷ l (ln(2 l/(b + c)) + 1/2 + 0.2235 (b + c)/l): E. B. Rosa, 1908. Of pairs: Gauss quadrature.
 *
 * No input has: rods and tubes (8.63 A^0.5 p^0.36, 50 mm diameter 2360 A, round wires), emissivity and the split of heat into
 * convection and radiation, cold-worked copper (97 % IACS), density, expansion, skin depth; bolted contacts are stated.
 */
import { describe, expect, it, test } from 'vitest';
import type { Bars } from '../../src/copper/bars.ts';
import { loopInductance_H } from '../../src/copper/inductance.ts';
import { conductivity_W_per_mK, perKelvin, warmer } from '../../src/copper/material.ts';
import { meanDistance_m } from '../../src/copper/mean-distance.ts';
import { flatBarRating_A, steadyRise_K, stillRating_A } from '../../src/copper/rating.ts';
import { loopResistance_ohm } from '../../src/copper/resistance.ts';
import { givenOff_W_per_mK, thermalTime_s } from '../../src/copper/warming.ts';
import { barHeat } from '../../src/slow/bar-heat.ts';
import { march } from '../../src/slow/march.ts';
import { published } from './published.ts';

const association = 'a table of the Copper Development Association';
const warm = published({ what: 'resistance of copper over that at 20 °C', source: 'IEC 60028' });
const resistances = published({
  what: 'resistance of one flat bar at 20 °C',
  source: 'IEC 60028',
  unit: 'µΩ/m',
});
const feet = published({ what: 'resistance of inch bars', source: association, unit: 'µΩ/ft' });
const inches = published({ what: 'rating of inch bars, 30 K', source: association, unit: 'A' });
const together = published({
  what: 'laminated bars over one',
  source: 'Copper for Busbars, CDA publication 22, 1996, section 10, from memory',
});
const rises = published({ what: 'rise at a constant heat conductance', source: 'closed form', unit: 'K' });
const straight = published({ what: 'inductance of a straight bar', source: 'Rosa 1908', unit: 'nH' });
const pairs = published({ what: 'pair of bars: inductance, time constant', source: 'Gauss quadrature' });
const heated = published({
  what: 'copper heated adiabatically, 40 kA',
  source: 'IEC 60364-5-54, annex A, closed form',
  unit: '°C',
});

/** A metre of one bar a pole [mm], faces opposed. */
function bars(width: number, thickness: number, more: Partial<Bars> = {}): Bars {
  const still = { count: 1, gap_m: 0.01, length_m: 1, temperature_degC: 20 };
  return { width_m: width / 1000, thickness_m: thickness / 1000, ...still, ...more };
}

const inch = (width: number, thickness: number): Bars => bars(25.4 * width, 25.4 * thickness);

describe('resistance', () => {
  it.each([
    [0, 0.9214],
    [50, 1.1179],
    [65, 1.17685],
    [75, 1.21615],
    [90, 1.2751],
    [100, 1.3144],
    [105, 1.33405],
  ])('of copper at %d °C', (degC, expected) => {
    warm({ which: `${degC} °C`, expected, found: warmer(degC), tolerance: 1e-9 });
  });

  it.each([
    [80, 10, 21.5517],
    [60, 10, 28.7356],
    [40, 5, 86.2069],
  ])('of %d × %d mm', (width, thickness, expected) => {
    const found = 0.5e6 * loopResistance_ohm(bars(width, thickness));
    resistances({ which: `${width} × ${thickness} mm`, expected, found, tolerance: 1e-5 });
  });

  it.each([
    [3, 10.88],
    [5, 6.52],
  ])('of %d × 1/4 in', (width, expected) => {
    const found = 0.5e6 * loopResistance_ohm({ ...inch(width, 1 / 4), length_m: 0.3048 });
    feet({ which: `1/4 × ${width} in`, expected, found, tolerance: 2e-3 });
  });
});

test('heat is conducted as between 20 and 100 °C', () => {
  expect(conductivity_W_per_mK).toBeGreaterThan(385);
  expect(conductivity_W_per_mK).toBeLessThan(394);
});

describe('ratings', () => {
  /** What heats a bar by so much. */
  const at = (rise_K: number, rated_A: number): number => {
    let [low, high] = [0, 3 * rated_A];
    for (let n = 0; n < 50; n++) {
      const middle = (low + high) / 2;
      if (steadyRise_K(middle, rated_A) < rise_K) low = middle;
      else high = middle;
    }
    return low;
  };

  it.each([
    [1 / 8, 2, 450],
    [1 / 4, 2, 660],
    [1 / 4, 3, 1020],
    [1 / 4, 4, 1300],
    [1 / 4, 5, 1590],
    [1 / 4, 6, 1850],
    [1 / 4, 8, 2300],
  ])(
    'of %d × %d in at 30 K: within the 10 % by which the table is above others',
    (thickness, width, expected) => {
      const found = at(30, flatBarRating_A(25.4 * width, 25.4 * thickness));
      inches({ which: `${thickness} × ${width} in`, expected, found, tolerance: 0.12 });
      expect(found).toBeLessThan(1.01 * expected);
    },
  );

  it.each([
    [30, 1100, 1250],
    [50, 1500, 1700],
    [65, 1700, 1950],
  ])('of 1/4 × 4 in at %d K lie between an emissivity of 0.15 and 0.4', (rise_K, bright, tarnished) => {
    const found = at(rise_K, flatBarRating_A(101.6, 6.35));
    expect(found).toBeGreaterThan(bright);
    expect(found).toBeLessThan(tarnished);
  });

  it('of two and four such bars at 30 K: two are between 0.4 and 0.7, four 4 % above 0.9, where the two tables part', () => {
    const rated = (count: number): number => at(30, stillRating_A({ ...inch(4, 1 / 4), count }));
    expect(rated(2)).toBeGreaterThan(2050);
    expect(rated(2)).toBeLessThan(2200);
    expect(rated(4) / 3600).toBeCloseTo(1.04, 2);
  });

  it.each([
    [2, 1.8],
    [3, 2.5],
    [4, 3.2],
    [5, 3.9],
    [6, 4.4],
    [8, 5.5],
    [10, 6.5],
  ])('of %d bars of a pole', (count, expected) => {
    const found = stillRating_A(bars(100, 6.3, { count })) / stillRating_A(bars(100, 6.3));
    together({ which: `${count} bars`, expected, found, tolerance: 1e-12 });
  });

  it('of 100 × 10 mm is the 2 A/mm² of the rule of thumb (Copper Development Association)', () => {
    expect(flatBarRating_A(100, 10) / 1000).toBeCloseTo(2, 2);
  });
});

describe('rises with one conductance for all of them', () => {
  it.each([
    [1000, 10.963],
    [1500, 25.964],
    [2000, 49.825],
  ])('of 100 × 10 mm at %d A, over air of 40 °C', (A, expected) => {
    const one = bars(100, 10);
    const perMetre = (degC: number): number => loopResistance_ohm({ ...one, temperature_degC: degC }) / 2;
    const found = (A * A * perMetre(40)) / (givenOff_W_per_mK(one) - A * A * perMetre(20) * perKelvin);
    rises({ which: `${A} A`, expected, found, tolerance: 1e-3 });
    // The rating's own law gives off less below its 50 K: the slow pass is never the cooler one there.
    expect(steadyRise_K(A, flatBarRating_A(100, 10))).toBeGreaterThan(found * 0.999);
  });
});

test('100 × 6.3 mm under 40 kA for a second, from 90 °C', () => {
  const one = bars(100, 6.3);
  const bar = {
    ...{ rated_current_A: flatBarRating_A(100, 6.3), thermal_time_s: thermalTime_s(one) },
    air_temperature_degC: 90,
  };
  const found = 90 + march(barHeat(bar, 40e3)!, 0, 1, 1e-6);
  heated({ which: '100 × 6.3 mm for 1 s from 90 °C', expected: 116.731, found, tolerance: 5e-4 });
});

describe('inductance', () => {
  it.each([
    [1, 100, 10, 685.001],
    [0.5, 50, 5, 342.501],
    [2, 60, 10, 1821.351],
    [0.3, 25, 3, 215.135],
  ])('of %d m of %d × %d mm alone, by its distance from itself', (length_m, width, thickness, expected) => {
    const own_m = meanDistance_m({ x_m: thickness / 1000, y_m: width / 1000 }, 0, 0);
    const found = 200 * length_m * (Math.log((2 * length_m) / own_m) - 1 + own_m / length_m);
    // The formula has ln(e^(1/2)) where the exact distance has 1.498 − 1.
    const which = `${length_m} m of ${width} × ${thickness} mm`;
    straight({ which, expected, found, tolerance: 1e-3 });
  });

  it.each([
    [0.05, 0.223455],
    [1e-6, 0.22313],
  ])('a rectangle of sides 1 and %d is this far from itself', (side, share) => {
    expect(meanDistance_m({ x_m: 1, y_m: side }, 0, 0) / (1 + side)).toBeCloseTo(share, 5);
  });

  it('of a pair 20 mm apart: resistance and time constant; and edge to edge', () => {
    const pair = bars(100, 10);
    const ohm = loopResistance_ohm(pair);
    pairs({ which: '100 × 10 mm, µΩ/m', expected: 34.483, found: 1e6 * ohm, tolerance: 1e-4 });
    pairs({
      which: '100 × 10 mm, L/R in ms',
      expected: 4.683,
      found: (1e3 * loopInductance_H(pair)) / ohm,
      tolerance: 1e-4,
    });
    const side = { x_m: 0.01, y_m: 0.1 };
    const found = 0.4 * Math.log(meanDistance_m(side, 0, 0.11) / meanDistance_m(side, 0, 0));
    pairs({ which: '110 mm edge to edge, µH/m', expected: 0.56526, found, tolerance: 1e-5 });
  });
});
