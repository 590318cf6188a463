import { expect, it } from 'vitest';
import { growingPoles } from '../../../src/studies/damping.ts';
import { modeWord, responseEnd } from '../../../src/studies/response/judge.ts';
import { stateWords, threeDigits } from '../../../src/studies/response/paper.ts';
import type { ResponseMode } from '../../../src/studies/response/respond.ts';

function mode(real_per_s: number, frequency_Hz = 0): ResponseMode {
  const size = Math.hypot(real_per_s, 2 * Math.PI * frequency_Hz);
  const owners = [{ name: 'S1 trim', share_ratio: 1 }];
  const damping_ratio = -real_per_s / size;
  return {
    real_per_s,
    frequency_Hz,
    damping_ratio,
    time_constant_s: -1 / real_per_s,
    count: 1,
    sampled: true,
    alternates: false,
    owners,
  };
}

it('a growth of 8e-11 1/s is below what eigenvalues can tell: neutral, not unstable', () => {
  const modes = [mode(8e-11), mode(-3)];
  expect(modeWord(modes[0]!)).toBe('neutral');
  expect(growingPoles(modes)).toBe(0);
  expect(responseEnd({ modes })).toBe('passed');
  expect(stateWords({ modes })).toMatch(/^stable, 1 neutral \(stays where it is put.*S1 trim/);
});

it('growth over 46 minutes drifts, growth over 1 ms is unstable, each with its time', () => {
  const [slow, fast] = [mode(1 / 2750), mode(1000, 4000)];
  expect([slow, fast].map(modeWord)).toEqual(['drifts', 'grows']);
  expect(stateWords({ modes: [slow] })).toMatch(
    /^DRIFTS: 1 growing mode, the fastest by e in 46 min, slow enough/,
  );
  expect(stateWords({ modes: [slow, fast] })).toMatch(/^UNSTABLE: 2 growing modes, the fastest by e in 1 ms/);
  expect(growingPoles([slow, fast])).toBe(3);
  expect(growingPoles([slow, { ...fast, alternates: true }])).toBe(2);
  expect(responseEnd({ modes: [slow] })).toBe('failed');
});

it('three digits that round up to four are no power of ten', () => {
  expect([999.4, 999.6, -999.6, 0.9996, 12.345].map(threeDigits)).toEqual([
    '999',
    '1000',
    '−1000',
    '1.00',
    '12.3',
  ]);
});
