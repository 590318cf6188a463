/** Counts that run on under the name of a power: whole, down, in coarse steps, with noise, and of few bits. */
import { expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { busy, signsIn } from './known-signal.ts';

const device = busy(3000);
let sum = 0;
const energy = device.map((v) => (sum += v / 50));
const shows = (values: Float64Array): string =>
  signsIn(values)
    .filter(({ kind }) => kind === 'running count')
    .map((sign) => sign.shows)
    .join(' ');

test('what is left of an energy', () => {
  expect(shows(energy.map((v) => 4e4 - v))).toMatch(/^a never rises in 3000 samples over 59\.98 s, from/);
});

test('a count in steps of its own unit, and one that stands for most of the time', () => {
  expect(shows(energy.map((v) => 1000 * Math.floor(v / 1000)))).toMatch(/^a never falls in 3000 samples/);
  // Twenty steps in a row and nothing else are a load that was switched up.
  const ladder = device.map((_, k) => 100 * Math.min(20, Math.floor(k / 20)));
  expect(shows(ladder)).toBe('');
});

test('a count with noise on it', () => {
  const random = new Random(5);
  expect(shows(energy.map((v) => v + 20 * random.gaussian()))).toMatch(
    /^a rises all along but for its noise/,
  );
});

test('what is left of an energy, with noise on it, and a coarse count that wraps', () => {
  const random = new Random(6);
  expect(shows(energy.map((v) => sum - v + 20 * random.gaussian()))).toMatch(
    /^a falls all along but for its noise/,
  );
  expect(shows(energy.map((v) => (500 * Math.floor(v / 500)) % 5000))).toMatch(/^a never falls but \d times/);
});

test('a count of few bits, which begins anew all the time', () => {
  expect(shows(energy.map((v) => v % 500))).toMatch(/^a never falls but \d\d times, when it begins anew/);
});

test('ramps that fall back by amounts of their own are a load’s', () => {
  const random = new Random(9);
  let [level, top] = [100, 400];
  const ramps = device.map(() => {
    level += 20 + 10 * random.uniform();
    if (level > top) [level, top] = [100, 300 + 400 * random.uniform()];
    return level;
  });
  expect(shows(ramps)).toBe('');
});
