import { expect, it } from 'vitest';
import { axisText } from '../../web/sheet.ts';

it.each([
  ['ratio', [0.45, 0.450005, 0.45001], ['45.0000 %', '45.0005 %', '45.0010 %']],
  ['ratio', [0, 0.02, 0.04], ['0 %', '2 %', '4 %']],
  ['W', [-500, 0, 500], ['−500 W', '0 W', '500 W']],
  ['W', [0, 50e3, 100e3], ['0 kW', '50 kW', '100 kW']],
  ['W/s', [0, 0.5e6, 1e6], ['0.0 MW/s', '0.5 MW/s', '1.0 MW/s']],
  ['V', [48, 49, 50], ['48.0 V', '49.0 V', '50.0 V']],
  ['A', [0, 0.05, 0.1], ['0.00 A', '0.05 A', '0.10 A']],
  ['A', [1000, 1200, 1400], ['1.0 kA', '1.2 kA', '1.4 kA']],
  ['W', [0, 200e3, 1e6], ['0.0 MW', '0.2 MW', '1.0 MW']],
  ['s', [18.6, 18.65, 18.7], ['18.60 s', '18.65 s', '18.70 s']],
  ['V', [49.85, 49.9, 49.95], ['49.85 V', '49.90 V', '49.95 V']],
] as const)('axisText() writes ticks in %s as far apart as they are', (unit, ticks, texts) => {
  expect(ticks.map((tick) => axisText(tick, unit, ticks))).toEqual(texts);
});
