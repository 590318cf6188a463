/**
 * Ripple of the DC link behind a single-phase rectifier at power factor 1: p(t) = P (1 − cos 2ωt) from the line and P
 * to the load leave C v dv/dt = −P cos 2ωt, so peak to peak P/(ω C V) of voltage and P/ω of energy. Erickson and
 * Maksimović, Fundamentals of Power Electronics, chapter 18 (from memory; closed form). The loop of the reference shelf
 * is slowed to 5 Hz, for it takes part of the ripple otherwise.
 */
import { describe, expect, it } from 'vitest';
import { faulted, rangeOf } from '../faults/fault-runs.ts';
import { published } from './published.ts';

const volts = published({
  what: 'ripple of the bulk at twice the line frequency, peak to peak',
  source: 'Erickson and Maksimović, Fundamentals of Power Electronics, ch. 18, from memory',
  unit: 'V',
});
const joules = published({
  what: 'energy that it moves, peak to peak',
  source: 'the same, P/ω',
  unit: 'J',
});

const one = {
  start: 'settled',
  duration: '0.8 s',
  // The start is settled without pulsation; what its onset leaves has died away by then.
  warm_up: '0.5 s',
  'load.low': '200 kW',
  'load.high': '200 kW',
  'shelves.line_ripple': '100 %',
  'shelves.power_loop': '5 Hz',
  // No trims that step: their power would move the bulk too.
  'firmware.share.dead_band': '50 %',
};
/** One module of the size of five: all of the shelf is on one phase. */
const single = {
  ...one,
  'shelves.module_count': '1',
  'shelves.module_power': '36 kW',
  'shelves.module_bulk_capacitance': '22.5 mF',
};

describe('the bulk of a shelf on one phase', () => {
  it.each([50, 60])('swings as the textbook says, at %d Hz', (line_Hz) => {
    const run = faulted('pulse-train', { ...single, 'feeders.frequency': `${line_Hz} Hz` });
    const { min, max } = rangeOf(run, 'S1.bulk_V');
    const power_W = rangeOf(run, 'S1.ac_power_W').max / 2;
    const omega = 2 * Math.PI * line_Hz;
    const [C, V] = [22.5e-3, (min + max) / 2];
    // A hundredth: AC power holds the loss of the AC stage, two hundredths of it, which the bulk does not see.
    volts({ which: `${line_Hz} Hz`, expected: power_W / (omega * C * V), found: max - min, tolerance: 0.02 });
    const swing_J = (C * (max * max - min * min)) / 2;
    joules({ which: `${line_Hz} Hz`, expected: power_W / omega, found: swing_J, tolerance: 0.02 });
    expect(run.result.status).toBe('ok');
    expect(Math.abs(run.result.audit.residual_ratio)).toBeLessThan(1e-6);
    expect(Math.abs(run.result.audit.residual_loss_ratio)).toBeLessThan(1e-5);
  });

  it('of five modules swings by a fifth of that, and by more with a phase lost', () => {
    const swing = (run: ReturnType<typeof faulted>): number => {
      const { min, max } = rangeOf(run, 'S1.bulk_V');
      return max - min;
    };
    const whole = swing(faulted('pulse-train', single));
    expect(swing(faulted('pulse-train', one)) / whole).toBeCloseTo(0.2, 2);
    // Two modules on each of two phases and one on the third; without the first, two against one: (√3 of 3).
    // At 120 kW the two phases left can still carry it all.
    const light = { 'load.low': '120 kW', 'load.high': '120 kW' };
    const lost = faulted('pulse-train', { ...one, ...light }, ['phase-loss F1 at 0 s']);
    const all = swing(faulted('pulse-train', { ...single, ...light }));
    expect(swing(lost) / all).toBeCloseTo(1 / Math.sqrt(3), 2);
  });
});
