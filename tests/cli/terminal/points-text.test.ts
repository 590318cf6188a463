/** Measured points beside the model: a phase is written by the turn that is nearest to the model's. */
import { expect, it } from 'vitest';
import { plain } from '../../../src/cli/terminal/paint.ts';
import { pointsText } from '../../../src/cli/terminal/study/response-text.ts';

it('+122.6° beside −237.3° is −237.4°', () => {
  const point = { curve: 'load to AC power', line: 2, frequency_Hz: 2750, gain_dB: -62.76, phase_deg: 122.6 };
  const laid = { ...point, model_dB: -62.76, model_deg: -237.3, error_dB: 0, error_deg: -0.1 };
  const text = pointsText([laid], plain);
  expect(text).toMatch(/−62\.76 dB +−237\.4° +−62\.76 dB +−237\.3° +\+0\.00 dB +−0\.1°/);
  expect(text).toContain('at most 0.00 dB and 0.1° apart over 1 point');
  const without = pointsText([{ ...laid, phase_deg: null, error_deg: null }], plain);
  expect(without).toMatch(/−62\.76 dB +– +−62\.76 dB/);
});
