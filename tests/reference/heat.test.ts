/**
 * Heat of bars and life of cells against published examples. Bars: "Copper for Busbars", Copper Development
 * Association publication 22, 1996, section 10: 100 × 6.3 mm carries 1570 A for 50 K; its own formula gives
 * 1568.9 A (tolerance: the page's rounding to 5 A). Life: the 10 K and 0.1 V rules, common practice; worked:
 * 1500 h at 65 °C and 2.7 V become 1500 · 4 · 1.69 = 10 140 h at 45 °C and 2.5 V. Fins: Incropera, DeWitt,
 * Fundamentals of Heat and Mass Transfer, the very long rod of chapter 3 (from memory): 5 mm thick, 100 °C at its
 * end in air of 25 °C with 100 W/(m² K) gives off 8.3, 5.6 and 1.6 W in copper, aluminium and steel.
 */
import { expect, test } from 'vitest';
import { flatBarRating_A, steadyRise_K } from '../../src/copper/rating.ts';
import { finConductance_W_per_K } from '../../src/copper/warming.ts';
import { cellLife_s } from '../../src/slow/life.ts';
import { hotSpot_degC, trayHeat } from '../../src/slow/loss-heat.ts';
import { march } from '../../src/slow/march.ts';
import { shippedWith } from '../engine/runs.ts';
import { readShipped } from '../scenario/shipped.ts';
import { published } from './published.ts';

const pages = published({
  what: 'rating of a flat bar, 50 K',
  source: 'Copper for Busbars, CDA publication 22, 1996, section 10',
  unit: 'A',
});
const formula = published({
  what: 'rating of a flat bar by its formula',
  source: 'Copper for Busbars, section 3',
  unit: 'A',
});
const warming = published({
  what: 'thermal time of the shipped bars',
  source: 'IEC 60028, IEC 60364-5-54, Copper for Busbars; by hand',
  unit: 's',
});
const fins = published({
  what: 'heat of a very long rod, what takes heat from a joint',
  source: 'Incropera, DeWitt, Fundamentals of Heat and Mass Transfer, ch. 3, from memory',
  unit: 'W',
});
const lives = published({
  what: 'life of a cell by the 10 K and 0.1 V rules',
  source: 'common practice, worked by hand',
  unit: 'h',
});

test('a flat bar on edge carries what the publication says', () => {
  // The page rounds to 5 A, the formula's table to 0.1 A.
  pages({ which: '100 × 6.3 mm', expected: 1570, found: flatBarRating_A(100, 6.3), tolerance: 5 / 1570 });
  for (const [width, thickness, rating] of [
    [100, 6.3, 1568.9],
    [100, 10, 2003.2],
    [120, 10, 2342.1],
    [80, 10, 1656.8],
    [60, 10, 1300.9],
    [50, 6.3, 865.8],
    [40, 5, 632.2],
    [25, 3, 321.7],
  ] as const) {
    const found = flatBarRating_A(width, thickness);
    formula({ which: `${width} × ${thickness} mm`, expected: rating, found, tolerance: 0.06 / rating });
  }
});

test('a very long rod gives off what the textbook says', () => {
  const section_m2 = (Math.PI * 0.005 ** 2) / 4;
  for (const [metal, conductivity, heat_W] of [
    ['copper', 398, 8.3],
    ['aluminium', 180, 5.6],
    ['stainless steel', 14, 1.6],
  ] as const) {
    const found = 75 * finConductance_W_per_K(100 * Math.PI * 0.005, section_m2, conductivity);
    // Two digits are printed.
    fins({ which: metal, expected: heat_W, found, tolerance: 0.05 / heat_W });
  }
});

test('the shipped joints are cooled by their own surface and two long bars', () => {
  const { bars } = readShipped('scenarios/pulse-train.yaml').scenario;
  const expected = (perMetre: number, section: number, own: number): number =>
    1 / (2 * finConductance_W_per_K(perMetre, section) + own);
  // 8 W/(m² K): 1.76 W/(K m) over a perimeter of 0.22 m.
  expect(bars.links[0]!.joint_thermal_resistance_K_per_W).toBeCloseTo(expected(1.76, 1e-3, 8 * 0.02), 2);
  expect(bars.segment.joint_thermal_resistance_K_per_W).toBeCloseTo(expected(3.17, 2e-3, 8 * 0.04), 2);
});

test('the rating heats a bar by 50 K, and current goes with the 0.61th power of the rise', () => {
  expect(steadyRise_K(2003, 2003)).toBe(50);
  expect(steadyRise_K(2 ** 0.61 * 1000, 1000)).toBeCloseTo(100, 9);
});

test('the shipped bars state the rating that the formula gives them', () => {
  const { bars } = readShipped('scenarios/pulse-train.yaml').scenario;
  const one = flatBarRating_A(100, 10);
  expect(Math.abs(bars.links[0]!.rated_current_A - one)).toBeLessThan(1);
  expect(Math.abs(bars.segment.rated_current_A - 1.8 * one)).toBeLessThan(1);
  expect(bars.contact.rated_current_A).toBe(0);
});

test('the shipped bars warm up in the time that copper and the rating give', () => {
  // τ = C/G a metre: C = A · 3.45e6 J/(K m³), G = I² R/50 K, R = ρ (1 + 0.00393 · 70 K)/A at 90 °C, ρ = 1.7241e-8 Ω m
  // (IEC 60028; IEC 60364-5-54). Worked: 0.0219845 mΩ/m, 88.22 W/m, 1.7644 W/(K m), 1955 s.
  const { bars } = readShipped('scenarios/pulse-train.yaml').scenario;
  const A = 1e-3;
  const R = ((1 / 58e6) * (1 + 0.00393 * 70)) / A;
  const expected = (A * 3.45e6) / ((flatBarRating_A(100, 10) ** 2 * R) / 50);
  expect(R).toBeCloseTo(21.9845e-6, 10);
  warming({ which: '100 × 10 mm', expected, found: bars.segment.thermal_time_s, tolerance: 5e-4 });
});

test('a cell lives twice as long 10 K cooler and 1.3 times as long 0.1 V lower', () => {
  const rated = { life_s: 1500 * 3600, temperature_degC: 65, voltage_V: 2.7 };
  lives({
    which: '1500 h at 65 °C, 2.7 V, used at 45 °C, 2.5 V',
    expected: 10_140,
    found: cellLife_s(rated, 45)(2.5) / 3600,
    tolerance: 1e-9,
  });
  expect(cellLife_s(rated, 65)(2.7)).toBe(rated.life_s);
  // Further down than 0.4 V nothing more is granted.
  expect(cellLife_s(rated, 65)(1.8)).toBe(cellLife_s(rated, 65)(2.3));
});

test('the hot spot is the coolant plus the loss in the series resistance over R_th; unknown without R_th', () => {
  const { trays } = readShipped('scenarios/pulse-train.yaml').scenario;
  const { values } = trays[0]!;
  // 12 K by the resistance at 25 °C, which falls by 0.4 % a kelvin: T = 30 + 12 (1 − 0.004 (T − 25)).
  expect(hotSpot_degC(values, 200)).toBeCloseTo((30 + 12 * 1.1) / 1.048, 6);
  const steady = { ...values, esr_cold_rise_ratio: 0, esr_warm_fall_ratio: 0 };
  expect(hotSpot_degC(steady, 200)).toBeCloseTo(30 + 0.125 * 2.4e-3 * 200 * 200, 12);
  expect(hotSpot_degC({ ...values, thermal_resistance_K_per_W: 0 }, 200)).toBeNull();
});

test('a hot spot is the same whatever temperature the run took its cells at, and none where resistance runs away', () => {
  const at = (cell_temperature: string) =>
    shippedWith('pulse-train', { 'trays.cell_temperature': cell_temperature }).trays[0]!.values;
  expect(hotSpot_degC(at('0 °C'), 200)).toBeCloseTo(hotSpot_degC(at('25 °C'), 200)!, 6);
  // 5 % a kelvin: beyond 20 K of heat at 25 °C nothing holds it.
  const runaway = { ...at('25 °C'), esr_warm_fall_ratio: -0.05 };
  expect(hotSpot_degC(runaway, 300)).toBe(Number.POSITIVE_INFINITY);
  // The course heads for the same end.
  expect(march(trayHeat(at('25 °C'), 200)!, 30, 1e5, 1e-6)).toBeCloseTo((30 + 12 * 1.1) / 1.048, 5);
});
