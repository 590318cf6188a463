import { describe, expect, test } from 'vitest';
import { readingOf } from '../../../scripts/identification/instrument.ts';
import { readSensor } from '../../../src/measured/sensor/read-sensor.ts';
import type { Sensor } from '../../../src/measured/sensor/sensor.ts';
import { shownBy } from '../../../src/measured/sensor/through-sensor.ts';

const channel = 'S1.current_A';
const window = { from_s: 0, to_s: 4 };
/** A formula over four seconds by straight lines, 16 kHz. */
const curveOf = (at: (time_s: number) => number) => {
  const time_s = Float64Array.from({ length: 64_001 }, (_, k) => k / 16_000);
  return { channel, time_s, values: time_s.map(at) };
};
const sensor = (words: string): Sensor => {
  const read = readSensor(words, 'A');
  if ('found' in read) throw new Error(read.found);
  return read;
};
const shown = (curve: ReturnType<typeof curveOf>, words: string) => shownBy(sensor(words), curve, window);
/** Amplitude and phase of a tone, from the whole periods of the third second. */
function toneOf(
  at: (time_s: number) => number,
  f: number,
): { readonly gain: number; readonly phase: number } {
  let [re, im] = [0, 0];
  for (let i = 0; i < 1000; i++) {
    const t = 2 + i / 1000;
    re += (2 / 1000) * at(t) * Math.cos(2 * Math.PI * f * t);
    im += (2 / 1000) * at(t) * Math.sin(2 * Math.PI * f * t);
  }
  return { gain: Math.hypot(re, im), phase: Math.atan2(re, im) };
}
const tone = (f: number) => curveOf((t) => Math.sin(2 * Math.PI * f * t));

describe('shownBy()', () => {
  test.each([5, 40, 100])('a corner of 40 Hz takes off a tone of %d Hz what one pole takes', (f) => {
    const seen = shown(tone(f), 'shunt, corner 40 Hz');
    const { gain, phase } = toneOf((t) => seen.at(t), f);
    expect(Math.abs(gain * Math.hypot(1, f / 40) - 1)).toBeLessThan(2e-3);
    expect(Math.abs(phase + Math.atan(f / 40))).toBeLessThan(5e-3);
  });

  test.each([1, 7, 33])(
    'a mean over 20 ms takes off a tone of %d Hz sin(x)/x, and delays it by 10 ms',
    (f) => {
      const seen = shown(tone(f), 'meter, averaging 20 ms');
      const { gain, phase } = toneOf((t) => seen.at(t), f);
      const x = Math.PI * f * 0.02;
      expect(Math.abs(gain - Math.abs(Math.sin(x) / x))).toBeLessThan(1e-3);
      expect(Math.abs(Math.sin(phase + x))).toBeLessThan(5e-3);
    },
  );

  test('a rogowski coil shows no steady part, and a step as a decay with its corner', () => {
    const seen = shown(
      curveOf((t) => (t < 0.5 ? 100 : 400)),
      'rogowski, low 2 Hz',
    );
    expect(Math.abs(seen.at(0.3))).toBeLessThan(1e-9);
    for (const after_s of [0.05, 0.2, 0.5]) {
      const wanted = 300 * Math.exp(-2 * Math.PI * 2 * after_s);
      expect(Math.abs(seen.at(0.5 + after_s) - wanted)).toBeLessThan(0.01 * 300);
    }
  });

  test('a mean begins when its first window is over, and leaves the clock alone', () => {
    const seen = shown(
      curveOf((t) => 1000 * t),
      'meter, averaging 1 s',
    );
    expect([seen.from_s, seen.to_s, seen.at(0.999)]).toEqual([1, 4, Number.NaN]);
    expect(seen.at(2.25)).toBeCloseTo(2250 - 500, 6);
  });

  test('nothing declared is the curve at its instants, within the judged window alone', () => {
    const seen = shownBy(undefined, tone(7), { from_s: 1, to_s: 2 });
    expect(seen.at(1.5)).toBe(tone(7).values[24_000]);
    expect([seen.at(0.999), seen.at(2.001)]).toEqual([Number.NaN, Number.NaN]);
  });

  test.each([
    'shunt, corner 150 Hz',
    'shunt, averaging 1 ms',
    'shunt, corner 4 kHz, averaging 0.3 ms',
    'hall',
  ])('reads uneven lines with sharp edges as plain sums over small steps do: %s', (words) => {
    const corners: readonly (readonly [number, number])[] = [
      [0, 60],
      [0.05, 60],
      [0.0502, 240],
      [0.0511, 228],
      [0.054, 236],
      [0.3, 231],
    ];
    const [times, values] = [corners.map(([t]) => t), corners.map(([, v]) => v)];
    const rows = { channels: [channel], time_s: times, values: [values], window: { from_s: 0, to_s: 0.3 } };
    const curve = { channel, time_s: Float64Array.from(times), values: Float64Array.from(values) };
    const [seen, wanted] = [
      shownBy(sensor(words), curve, rows.window),
      readingOf(rows, channel, sensor(words)),
    ];
    for (let k = 1; k < 290; k++) {
      const t = 0.005 + k * 1.01e-3;
      expect(Math.abs(seen.at(t) - wanted(t))).toBeLessThan(5e-4 * 180);
    }
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

  test('takes a scale of −1, a probe that was turned about', () => {
    expect(sensor('shunt, scale -1')).toMatchObject({ scale_ratio: -1 });
  });

  test.each([
    ['rogovski', { found: 'sensor rogovski', mend: 'did you mean rogowski?' }],
    ['shunt, colour 3', { found: 'colour 3' }],
    ['shunt, corner 3 V', { expected: 'a frequency' }],
    ['shunt, corner 0 Hz', { expected: 'a value above zero' }],
    ['shunt, range 600 V', { expected: 'a current' }],
    // A factor is no class: it would allow any gain from 0 to 2.
    ['shunt, gain 1.01', { expected: 'gain 1 %', mend: 'write scale 1.01' }],
    ['shunt, bias 0.5', { expected: 'bias 1 %' }],
    ['shunt, scale 0', { expected: 'a factor other than zero' }],
  ])('refuses %s with the way out', (words, wanted) => {
    const read = readSensor(words, 'A');
    if (!('found' in read)) throw new Error('it was read');
    for (const [key, text] of Object.entries(wanted))
      expect(`${key}: ${read[key as keyof typeof read]}`).toContain(text);
  });
});
