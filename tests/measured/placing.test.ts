import { describe, expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { Shown } from '../../src/measured/curve/shown.ts';
import { pairsOf } from '../../src/measured/pair.ts';
import { placing } from '../../src/measured/placing.ts';

const channel = 'A.S1.voltage_V';

/** What is shown of a formula, by lines of a quarter of a millisecond. */
function shownOf(at: (time_s: number) => number, length_s: number): Shown {
  const time_s = Float64Array.from({ length: 4000 * length_s + 1 }, (_, k) => k / 4000);
  return new Shown({ time_s, values: time_s.map(at) }, 0, { from_s: 0, to_s: length_s });
}

const edge = (t: number): number => 1 / (1 + Math.exp(-t / 0.001));
/** A step with a tail, as of a bus behind a smoothed load. */
const step = (tail_s: number) => (t: number) =>
  50 - edge(t - 0.1) * (0.6 + 0.5 * (1 - Math.exp(-Math.max(0, t - 0.1) / tail_s)));
const pulses = (t: number): number =>
  50 - [...Array(20).keys()].reduce((sum, k) => sum + (k % 2 === 0 ? 1 : -1) * edge(t - 0.8 - 0.5 * k), 0);

function measured(shown: Shown, at_s: number, length_s: number, noise: number, clock = 0, seed = 3) {
  const random = new Random(seed);
  const time_s = Float64Array.from({ length: Math.round(length_s / 0.002) }, (_, k) => 0.002 * k);
  const values = time_s.map((t) => shown.at(at_s + (1 + clock) * t) + noise * random.gaussian());
  return { column: 'probe', channel, time_s, values };
}

const place = (column: ReturnType<typeof measured>, model: Shown, near_s: number | null = null) =>
  placing(pairsOf([column], new Map([[channel, model]])), { at_s: null, near_s });

describe('placing()', () => {
  const model = shownOf(step(0.8), 2);

  test('finds the right model inside its interval, with no warning and no clock of one edge', () => {
    const found = place(measured(model, 0.02, 1.8, 0.005, 80e-6), model);
    expect(found).toMatchObject({ aligned: 'found', warnings: [], clock_rate_ratio: null });
    const [low, high] = found.at_interval_s!;
    expect([low < 0.02, 0.02 < high, high - low < 0.001]).toEqual([true, true, true]);
  });

  test.each([0.3, 0.5, 1.6])(
    'is not led away by another tail (%d s), takes no clock out of it, and warns',
    (tail_s) => {
      const found = place(measured(shownOf(step(tail_s), 2), 0.02, 1.8, 0.002, 80e-6), model);
      expect(found.clock_rate_ratio).toBeNull();
      expect(found.warnings.join(' ')).toMatch(/not noise|Nothing is moved/);
    },
  );

  test('is by shape alone where the gain is beyond the class, and says so', () => {
    const column = measured(model, 0.02, 1.8, 0.005);
    const found = place({ ...column, values: column.values.map((v) => 50 + 1.2 * (v - 50)) }, model);
    expect(Math.abs(found.at_s - 0.02)).toBeLessThan(0.002);
    expect(found.warnings.join(' ')).toMatch(/found by shape alone/);
  });

  test('moves nothing where every period agrees as well, and says the places and what to give', () => {
    const train = shownOf(pulses, 9);
    const found = place(measured(train, 2.6, 1.7, 0.02), train);
    expect(found).toMatchObject({ aligned: 'assumed', at_s: 0 });
    expect(found.warnings.join(' ')).toMatch(/every 1 s.*--measured-at TIME/);
  });

  test.each([2.3, 2.6, 2.9])(
    'takes the period that a stated %f s is about, and finds it exactly',
    (near_s) => {
      const train = shownOf(pulses, 9);
      const found = place(measured(train, 2.6, 1.7, 0.02), train, near_s);
      expect(found.aligned).toBe('found');
      const [low, high] = found.at_interval_s!;
      expect([low < 2.6, 2.6 < high, high - low < 0.002]).toEqual([true, true, true]);
    },
  );

  test('says where the shape puts it far from the stated time', () => {
    const found = place(measured(model, 0.02, 1.8, 0.005), model, 1.2);
    expect(found.warnings.join(' ')).toMatch(/lies 1\.18 s from the stated 1\.2 s \(--measured-near\)/);
  });

  test('moves nothing where the stated time lies between two periods', () => {
    const train = shownOf(pulses, 9);
    const found = place(measured(train, 2.6, 1.7, 0.02), train, 3.1);
    expect(found).toMatchObject({ aligned: 'assumed', at_s: 0 });
  });

  test('is settled by the first edge where the measurement holds it', () => {
    const train = shownOf(pulses, 9);
    const found = place(measured(train, 0.1, 7, 0.02), train);
    expect(Math.abs(found.at_s - 0.1)).toBeLessThan(0.002);
    expect(found.aligned).toBe('found');
  });
});

describe('what is left of a right model', () => {
  const model = shownOf(step(0.8), 2);

  test('is no misfit where the file is the run itself, to its digits', () => {
    const rows = measured(model, 0.02, 1.8, 0);
    const rounded = { ...rows, values: rows.values.map((v) => Number(v.toPrecision(9))) };
    expect(place(rounded, model)).toMatchObject({ aligned: 'found', warnings: [] });
  });

  test('is held against the noise of what lies within the run, not of values held before it', () => {
    const { values, ...rows } = measured(model, 0, 1.8, 0.005);
    const held = new Float64Array(2000).fill(50);
    const all = Float64Array.from([...held, ...values]);
    const found = place({ ...rows, time_s: all.map((_, k) => 0.002 * k), values: all }, model);
    expect(Math.abs(found.at_s + 4)).toBeLessThan(0.002);
    expect(found.warnings.join(' ')).not.toMatch(/not noise/);
  });
});
