import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { misfitsOf, whitenessByChannel } from '../../../src/studies/fit/misfit.ts';

const channels = ['A.S1.voltage_V', 'S1.current_A'];
const count = 1000;

/** Two channels of normal noise; to the second something is added, by the time of the run. */
function misfits(added: (time_s: number) => number, seed: number, interval_s = 0.002) {
  const random = new Random(seed);
  const points = channels.flatMap((_, channel) =>
    Array.from({ length: count }, (_point, k) => ({
      channel,
      row: k,
      time_s: 3 + k * interval_s,
      value: (channel === 0 ? 50 : 200) * (1 + 0.1 * Math.sin(k / 50)),
    })),
  );
  const left = Float64Array.from(
    points,
    ({ channel, time_s }) => random.gaussian() + (channel === 1 ? added(time_s) : 0),
  );
  const residuals = { points, noise: [0.004, 0.5] };
  const simulated = left.map((e, i) => points[i]!.value - e * residuals.noise[points[i]!.channel]!);
  return misfitsOf(
    residuals,
    { left, found: simulated, present: simulated },
    whitenessByChannel(residuals, left),
    channels.map((channel) => ({ channel })),
  );
}

describe('misfitsOf()', () => {
  test('takes noise for noise', () => {
    const found = Array.from({ length: 100 }, (_, seed) => misfits(() => 0, seed + 1).length);
    // Three tests at one in a thousand, either way, of two channels: 0.6 of a hundred.
    expect(found.reduce((sum, n) => sum + n, 0)).toBeLessThanOrEqual(4);
  });

  test('names the channel, the band and the moment of a ringing that dies away', () => {
    const ringing = (t: number): number =>
      t < 4 ? 0 : 6 * Math.exp(-(t - 4) / 0.1) * Math.sin(2 * Math.PI * 40 * t);
    const [found, ...more] = misfits(ringing, 1);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ channel: 'S1.current_A', band_Hz: [20, expect.closeTo(220, 0)] });
    expect(Math.abs(found!.moment_s - 4.03)).toBeLessThan(0.05);
    expect(found!.signs).toContain('alike from sample to sample');
  });

  test('names the band of a fast recorder where it shows more than the bands of a run', () => {
    const ringing = (t: number): number => 3 * Math.sin(2 * Math.PI * 1200 * t);
    const [found] = misfits(ringing, 4, 1e-4);
    expect(found).toMatchObject({ channel: 'S1.current_A', band_Hz: [300, 3000] });
  });

  test('sees a slow drift of half the noise', () => {
    const [found] = misfits((t) => 0.5 * Math.sin(Math.PI * (t - 3)), 2);
    expect(found).toMatchObject({ channel: 'S1.current_A' });
    expect(found!.signs.join(' ')).toMatch(/level of its own/);
  });

  test('sees an excess over the noise alone', () => {
    const dice = new Random(3);
    const [found] = misfits(() => 2 * dice.gaussian(), 3);
    expect(found!.signs.join(' ')).toMatch(/times the noise/);
  });
});
