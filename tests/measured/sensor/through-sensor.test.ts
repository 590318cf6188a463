import { describe, expect, test } from 'vitest';
import type { Stream } from '../../../src/engine/result.ts';
import { readSensor } from '../../../src/measured/sensor/read-sensor.ts';
import type { Sensor } from '../../../src/measured/sensor/sensor.ts';
import { throughSensor } from '../../../src/measured/sensor/through-sensor.ts';
import { simulatedAt } from '../../../src/measured/simulated-at.ts';

const rate_Hz = 1000;
const streamOf = (at: (time_s: number) => number, length_s: number): Stream => ({
  channel: 'S1.current_A',
  rate_Hz,
  from_s: 2,
  samples: Float64Array.from({ length: length_s * rate_Hz }, (_, k) => at((k + 0.5) / rate_Hz)),
  flat_to_Hz: 300,
});
const sensor = (words: string): Sensor => {
  const read = readSensor(words, 'A');
  if ('found' in read) throw new Error(read.found);
  return read;
};
/** Amplitude and phase of a tone, from the whole periods of the last second. */
function toneOf({ samples, from_s }: Stream, f: number): { readonly gain: number; readonly phase: number } {
  let [re, im] = [0, 0];
  const from = samples.length - rate_Hz;
  for (let i = 0; i < rate_Hz; i++) {
    const angle = 2 * Math.PI * f * (from_s - 2 + (from + i + 0.5) / rate_Hz);
    re += (2 / rate_Hz) * samples[from + i]! * Math.cos(angle);
    im += (2 / rate_Hz) * samples[from + i]! * Math.sin(angle);
  }
  return { gain: Math.hypot(re, im), phase: Math.atan2(re, im) };
}
const tone = (f: number): Stream => streamOf((t) => Math.sin(2 * Math.PI * f * t), 4);

describe('throughSensor()', () => {
  test.each([5, 40, 100])('a corner of 40 Hz takes off a tone of %d Hz what one pole takes', (f) => {
    const { gain, phase } = toneOf(throughSensor(tone(f), sensor('shunt, corner 40 Hz')), f);
    expect(Math.abs(gain * Math.hypot(1, f / 40) - 1)).toBeLessThan(2e-3);
    expect(Math.abs(phase + Math.atan(f / 40))).toBeLessThan(5e-3);
  });

  test.each([1, 7, 33])(
    'a mean over 20 ms takes off a tone of %d Hz sin(x)/x, and delays it by 10 ms',
    (f) => {
      const { gain, phase } = toneOf(throughSensor(tone(f), sensor('meter, averaging 20 ms')), f);
      const x = Math.PI * f * 0.02;
      expect(Math.abs(gain - Math.abs(Math.sin(x) / x))).toBeLessThan(1e-3);
      expect(Math.abs(Math.sin(phase + x))).toBeLessThan(5e-3);
    },
  );

  test('a rogowski coil shows no steady part, and a step as a decay with its corner', () => {
    const step = streamOf((t) => (t < 0.5 ? 100 : 400), 2);
    const seen = throughSensor(step, sensor('rogowski, low 2 Hz'));
    expect(Math.abs(seen.samples[300]!)).toBeLessThan(1e-9);
    for (const after_s of [0.05, 0.2, 0.5]) {
      const wanted = 300 * Math.exp(-2 * Math.PI * 2 * after_s);
      expect(Math.abs(simulatedAt(seen, 2.5 + after_s) - wanted)).toBeLessThan(0.01 * 300);
    }
  });

  test('a mean begins when its first window is over, and leaves the clock alone', () => {
    const ramp = streamOf((t) => 1000 * t, 3);
    const seen = throughSensor(ramp, sensor('meter, averaging 1 s'));
    expect(seen.from_s).toBe(3);
    expect(seen.samples.length).toBe(2000);
    expect(simulatedAt(seen, 4.25)).toBeCloseTo(2250 - 500, 6);
  });

  test('a sensor without filter or window changes no bit', () => {
    const stream = tone(7);
    expect(throughSensor(stream, sensor('shunt, range 600 A'))).toBe(stream);
  });
});

describe('readSensor()', () => {
  test('takes the kind, and what is declared in place of its usual values', () => {
    expect(sensor('rogowski, low 2 Hz, range 0.6 kA, gain 0.5 %')).toMatchObject({
      kind: 'rogowski',
      low_corner_Hz: 2,
      range: 600,
      gain_ratio: 0.005,
      bias_ratio: 0.002,
    });
  });

  test.each([
    ['rogovski', { found: 'sensor rogovski', mend: 'did you mean rogowski?' }],
    ['shunt, colour 3', { found: 'colour 3' }],
    ['shunt, corner 3 V', { expected: 'a frequency' }],
    ['shunt, corner 0 Hz', { expected: 'a value above zero' }],
    ['shunt, range 600 V', { expected: 'a current' }],
  ])('refuses %s with the way out', (words, wanted) => {
    const read = readSensor(words, 'A');
    if (!('found' in read)) throw new Error('it was read');
    for (const [key, text] of Object.entries(wanted))
      expect(`${key}: ${read[key as keyof typeof read]}`).toContain(text);
  });
});
