import { expect, it } from 'vitest';
import { marginsOf } from '../../src/linear/margins.ts';

/** A gain that falls as 1/f from 2 at 1 Hz, its phase from −90° at 1 Hz by 30° at each decade. */
const loop = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].map((frequency_Hz) => {
  const phase = (-(90 + 30 * Math.log10(frequency_Hz)) * Math.PI) / 180;
  const gain = 2 / frequency_Hz;
  return { frequency_Hz, value: { re: gain * Math.cos(phase), im: gain * Math.sin(phase) } };
});

it('marginsOf() finds where a gain passes 1 and its phase −180°', () => {
  const { crossover_Hz, phase_margin_deg, phase_crossover_Hz, gain_margin_dB } = marginsOf(loop);
  expect(crossover_Hz).toBeCloseTo(2, 6);
  expect(phase_margin_deg).toBeCloseTo(90 - 30 * Math.log10(2), 6);
  expect(phase_crossover_Hz).toBeCloseTo(1000, 6);
  expect(gain_margin_dB).toBeCloseTo(20 * Math.log10(500), 6);
});

it('marginsOf() reads a sampled loop up to half its rate', () => {
  expect(marginsOf(loop, 500)).toMatchObject({ phase_crossover_Hz: null, gain_margin_dB: null });
  const { crossover_Hz, clearance_Hz } = marginsOf(loop, 1.5);
  expect(crossover_Hz).toBe(null);
  expect(clearance_Hz).toBe(1);
});
