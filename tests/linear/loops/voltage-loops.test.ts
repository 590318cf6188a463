/**
 * Margins of the shelves' voltage loops against the modes of the same cabinet: at the gain that they name a mode neither
 * grows nor decays, a hundredth below and above it decays and grows. Commands are held on both sides; with the firmware
 * in its loops and at more points: `scripts/margins-by-modes.ts`.
 */
import { describe, expect, it } from 'vitest';
import { Curves, logFrequencies } from '../../../src/linear/curves.ts';
import { Hessenberg } from '../../../src/linear/hessenberg.ts';
import { gainOfClearance_dB } from '../../../src/linear/loops/disk.ts';
import { type Margins, marginsOf } from '../../../src/linear/loops/margins.ts';
import { restAt } from '../../../src/linear/rest.ts';
import { linearise } from '../../../src/linear/sampled.ts';
import type { Scenario } from '../../../src/scenario/scenario.ts';
import { placesOf } from '../../../src/studies/response/places.ts';
import { voltageLoops } from '../../../src/studies/response/voltage-loop.ts';
import { shipped } from '../scenario.ts';

const load_W = 240e3;
const grid = [...logFrequencies(10, 1e3, 20), ...logFrequencies(1.1e3, 5e4, 52)];

/** Growing poles of the plant with all commands held, K_p and K_i of all shelves or of one times a factor. */
function growing(scenario: Scenario, factor = 1, shelf: string | null = null): number {
  const shelves = scenario.shelves.map((one) => ({
    ...one,
    values: {
      ...one.values,
      ...(shelf === null || shelf === one.id
        ? {
            proportional_gain_A_per_V: factor * one.values.proportional_gain_A_per_V,
            integral_gain_A_per_Vs: factor * one.values.integral_gain_A_per_Vs,
          }
        : {}),
    },
  }));
  const { plant } = linearise(restAt({ ...scenario, shelves }, load_W));
  return new Hessenberg(plant.A, plant.n, false).eigenvalues().filter(({ re }) => re > 1e-6).length;
}

function loopsOf(scenario: Scenario) {
  const places = placesOf(restAt(scenario, load_W), [], null);
  const curves = new Curves(places.system, false);
  return voltageLoops(places, (frequency_Hz) => curves.at(frequency_Hz, places.setPoint));
}

const ratio = (dB: number): number => 10 ** (dB / 20);

describe('at a delay of 60 µs', () => {
  const scenario = shipped('single-step', 'shelves.control_delay=60 us');
  const { coupled, common, single, shelves } = loopsOf(scenario);
  const all = marginsOf(coupled, grid, growing(scenario));

  it('the lowest locus has the gain at which a mode grows, 2.5 dB up; the common direction shows far more', () => {
    expect(all.gain_margin_dB).toBeCloseTo(2.5, 1);
    expect(growing(scenario, 0.99 * ratio(all.gain_margin_dB!))).toBe(0);
    expect(growing(scenario, 1.01 * ratio(all.gain_margin_dB!))).toBe(2);
    expect(marginsOf(common, grid, 0).gain_margin_dB).toBeGreaterThan(all.gain_margin_dB! + 3);
  });

  it('one shelf with the others closed may rise until a mode grows', () => {
    const own = marginsOf(single[4]!, grid, 0);
    const at = ratio(own.gain_margin_dB!);
    expect(growing(scenario, 0.99 * at, shelves[4]!)).toBe(0);
    expect(growing(scenario, 1.01 * at, shelves[4]!)).toBe(2);
    expect(own.gain_margin_dB).toBeGreaterThan(all.gain_margin_dB!);
  });

  it('the delay that is left takes a mode to the edge', () => {
    // 18 µs more, the delay being the same all-pass in the model: to a hundredth of the whole.
    const edge_us = 60 + 1e6 * all.delay_margin_s!;
    const at = (us: number): number =>
      growing(shipped('single-step', `shelves.control_delay=${us.toFixed(3)} us`));
    expect(at(0.98 * edge_us)).toBe(0);
    expect(at(1.04 * edge_us)).toBeGreaterThan(0);
  });

  it('what each loop may do by itself is never more than what all may do alike', () => {
    const of = ({ clearance_ratio, disk_gain_dB }: Margins): number[] => [
      gainOfClearance_dB(clearance_ratio!)!,
      disk_gain_dB!,
    ];
    for (const promised of of(all)) {
      expect(promised).toBeGreaterThan(0.5 * all.gain_margin_dB!);
      expect(promised).toBeLessThanOrEqual(all.gain_margin_dB! + 1e-6);
    }
    expect(all.disk_phase_deg).toBeLessThanOrEqual(Math.abs(all.phase_margin_deg!) + 1e-6);
  });
});

it('an output ESR of 0.1 mΩ is unstable: no margin, and stable once all gains are 5.1 dB lower', () => {
  const scenario = shipped('single-step', 'shelves.output_esr=0.1 mΩ');
  const { stable_at_dB, gain_margin_dB, clearance_ratio, disk_ratio, delay_margin_s } = marginsOf(
    loopsOf(scenario).coupled,
    grid,
    growing(scenario),
  );
  expect([gain_margin_dB, clearance_ratio, disk_ratio, delay_margin_s]).toEqual([null, null, null, null]);
  expect(stable_at_dB).toBeCloseTo(-5.1, 1);
  expect(growing(scenario, 0.99 * ratio(stable_at_dB!))).toBe(0);
  expect(growing(scenario, 1.01 * ratio(stable_at_dB!))).toBeGreaterThan(0);
});
