/**
 * Bars from their dimensions against what is published. Resistivity: IEC 60028, 1/58 Ω mm²/m. Resistance by length: a table of
 * the Copper Development Association for inch bars, 1/8 × 2 in to 1/4 × 8 in at 20 °C. Rating: Copper for Busbars, CDA publication
 * 22, 1996, section 10. Self distances: E. B. Rosa, 1908, F. W. Grover, Inductance Calculations, 1946 (0.2235 of the sides together,
 * 0.44705 of a square). Inductances worked out for these tests by four-dimensional Gauss quadrature of ln r, to 1e-5.
 */
import { describe, expect, test } from 'vitest';
import type { Bars } from '../../src/copper/bars.ts';
import { forced_W_per_m2K } from '../../src/copper/cooling.ts';
import { loopInductance_H } from '../../src/copper/inductance.ts';
import { meanDistance_m } from '../../src/copper/mean-distance.ts';
import { loopResistance_ohm } from '../../src/copper/resistance.ts';
import { jointThermalResistance_K_per_W, poleRating_A, thermalTime_s } from '../../src/copper/warming.ts';

/** One metre of one bar a pole, faces opposed [mm]. */
function bars(width: number, thickness: number, more: Partial<Bars> = {}): Bars {
  return {
    width_m: width / 1000,
    thickness_m: thickness / 1000,
    count: 1,
    gap_m: 0.01,
    length_m: 1,
    temperature_degC: 20,
    ...more,
  };
}

describe('resistance of one bar', () => {
  test.each([
    [100, 10, 17.2414, 21.9845],
    [100, 6.3, 27.3673, 34.896],
    [120, 10, 14.3678, 18.3204],
    [50, 6.3, 54.7345, 69.792],
    [25, 3, 229.885, 293.126],
  ])('of %d × %d mm at 20 and 90 °C', (width, thickness, cold, hot) => {
    const found = [20, 90].map(
      (t) => 0.5e6 * loopResistance_ohm(bars(width, thickness, { temperature_degC: t })),
    );
    expect(found[0]! / cold).toBeCloseTo(1, 4);
    expect(found[1]! / hot).toBeCloseTo(1, 4);
  });

  test.each([
    [1 / 8, 2, 32.6],
    [1 / 4, 2, 16.3],
    [1 / 4, 4, 8.15],
    [1 / 4, 6, 5.43],
    [1 / 4, 8, 4.08],
  ])('of %d × %d in, a foot of it', (thickness, width, micro) => {
    const foot = bars(25.4 * width, 25.4 * thickness, { length_m: 0.3048 });
    expect(Math.abs((0.5e6 * loopResistance_ohm(foot)) / micro - 1)).toBeLessThan(0.002);
  });
});

describe('mean distances', () => {
  test.each([
    [1, 0.223525],
    [0.5, 0.223601],
    [0.25, 0.223687],
    [0.1, 0.223599],
    [0.025, 0.223328],
  ])('of a rectangle of sides 1 and %d from itself', (side, share) => {
    expect(meanDistance_m({ x_m: 1, y_m: side }, 0, 0) / (1 + side)).toBeCloseTo(share, 6);
  });

  test('of two far rectangles is their distance; of a square it does not matter which way', () => {
    expect(meanDistance_m({ x_m: 0.01, y_m: 0.1 }, 5, 0)).toBeCloseTo(5, 3);
    const square = { x_m: 0.02, y_m: 0.02 };
    expect(meanDistance_m(square, 0.05, 0)).toBeCloseTo(meanDistance_m(square, 0, 0.05), 12);
  });

  test('of bars of 100 × 10 mm edge to edge, 110 mm apart', () => {
    expect(1000 * meanDistance_m({ x_m: 0.01, y_m: 0.1 }, 0, 0.11)).toBeCloseTo(101.0624, 3);
  });
});

describe('inductance of a pole and its return', () => {
  test.each([
    [100, 10, 20, 0.16147],
    [100, 10, 50, 0.36752],
    [100, 10, 100, 0.58912],
    [100, 10, 200, 0.84617],
    [100, 6.3, 12.6, 0.10999],
    // The first at half the scale.
    [50, 5, 10, 0.16147],
  ])('of %d × %d mm, middles %d mm apart', (width, thickness, apart, micro) => {
    const found = loopInductance_H(bars(width, thickness, { gap_m: (apart - thickness) / 1000 }));
    expect(1e6 * found).toBeCloseTo(micro, 5);
  });

  test('wide strips face to face: μ0 (g + 2 t/3)/w (textbook, even current)', () => {
    const strips = bars(2000, 1, { gap_m: 0.001 });
    const textbook = (4e-7 * Math.PI * (0.001 + (2 * 0.001) / 3)) / 2;
    expect(loopInductance_H(strips) / textbook).toBeCloseTo(1, 2);
  });

  test('poles of two bars are as two circuits in series-parallel: the mean of all pairs, by hand', () => {
    const two = bars(100, 10, { count: 2 });
    const ln = (mm: number): number => Math.log(meanDistance_m({ x_m: 0.01, y_m: 0.1 }, mm / 1000, 0));
    // Bars of one pole at 0 and 20 mm, of the other at 40 and 60 mm.
    const between = (ln(40) + ln(60) + ln(20) + ln(40)) / 4;
    const own = (ln(0) + ln(20)) / 2;
    expect(loopInductance_H(two)).toBeCloseTo(4e-7 * (between - own), 15);
  });
});

test('what a pole carries in still air, and how slowly it warms', () => {
  expect(Math.abs(poleRating_A(bars(100, 6.3)) / 1570 - 1)).toBeLessThan(0.001);
  // Four bars of 100 × 6.3 mm: about 5020 A (section 10, case III).
  expect(Math.abs(poleRating_A(bars(100, 6.3, { count: 4 })) / 5020 - 1)).toBeLessThan(0.001);
  expect(poleRating_A(bars(100, 6.3, { count: 7 })) / poleRating_A(bars(100, 6.3))).toBeCloseTo(4.95, 9);
  expect(() => poleRating_A(bars(100, 10, { count: 11 }))).toThrow('a pole of 11 bars');
  // Heat of 3450 and 2173.5 J/(K m) over 1.7644 and 1.7179 W/(K m), by hand.
  expect(thermalTime_s(bars(100, 10))).toBeCloseTo(1955, -1);
  expect(thermalTime_s(bars(100, 6.3))).toBeCloseTo(1265, -1);
  expect(jointThermalResistance_K_per_W(bars(100, 10))).toBeCloseTo(0.55, 2);
  // Two bars carry 1.8 times the current in twice the copper: 1.62 times the heat of one, 2.86 W/(m K) and fins of 1.49 W/K.
  expect(jointThermalResistance_K_per_W(bars(100, 10, { count: 2 }))).toBeCloseTo(1 / (0.32 + 2 * 1.493), 3);
});

describe('a pole that is cooled', () => {
  test('by air along its width: Nu = 0.664 √Re ∛Pr over a plate, by hand', () => {
    // 2 m/s over 100 mm: Re 10152, Nu 59.46, 17.4 W/(m² K).
    expect(forced_W_per_m2K(2, 0.1)).toBeCloseTo(17.36, 1);
    // Turbulent beyond Re 5e5: 20 m/s over 0.6 m, Re 609137, Nu (1571.7 − 871) ∛0.702.
    expect(forced_W_per_m2K(20, 0.6)).toBeCloseTo(30.3, 0);
  });

  test('carries more under fans, what still air lets it where they stand', () => {
    const one = bars(100, 10);
    const still = poleRating_A(one);
    expect(poleRating_A({ ...one, air_speed_m_per_s: 0 })).toBe(still);
    // 17.36 W/(m² K) on 220 mm over 1.764 W/(m K).
    expect(poleRating_A({ ...one, air_speed_m_per_s: 2 }) / still).toBeCloseTo(Math.sqrt(3.82 / 1.764), 1);
    expect(poleRating_A({ ...one, air_speed_m_per_s: 0.1 })).toBe(still);
    expect(thermalTime_s({ ...one, air_speed_m_per_s: 2 })).toBeLessThan(thermalTime_s(one) / 2);
  });

  test('a rack bar of two bars at 50 V carries some 700 kW where 45 W/K go from each metre into a liquid (common practice, no source)', () => {
    const rack = bars(100, 10, { count: 2, length_m: 1, coolant_resistance_K_per_W: 1 / 45 });
    const carried_W = 50 * poleRating_A(rack);
    expect(carried_W / 700e3).toBeGreaterThan(0.95);
    expect(carried_W / 700e3).toBeLessThan(1.1);
    // Still air alone: 180 kW.
    expect(50 * poleRating_A(bars(100, 10, { count: 2 }))).toBeCloseTo(180e3, -4);
  });
});
