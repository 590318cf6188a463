/** A measurement whose parts lie at different places of the run: its stamps jump, or time is missing between them. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../src/loads/random.ts';
import { Shown } from '../../src/measured/curve/shown.ts';
import { pairsOf } from '../../src/measured/pair.ts';
import { placing } from '../../src/measured/placing.ts';

const channel = 'A.S1.voltage_V';
const interval_s = 0.002;
const count = 1500;
const edge = (t: number): number => 1 / (1 + Math.exp(-t / 0.001));
/** Steps at uneven times, no two stretches alike. */
const at_s = [0.4, 0.7, 1.3, 1.55, 2.2, 2.9, 3.1, 3.8];
const steps = (t: number): number =>
  50 - at_s.reduce((sum, from, k) => sum + (k % 2 === 0 ? 1 : -1) * (1 + 0.1 * k) * edge(t - from), 0);
const time_s = Float64Array.from({ length: 20_000 }, (_, k) => k / 4000);
const model = new Shown({ time_s, values: time_s.map(steps) }, 0, { from_s: 0, to_s: 5 });

/** Stamps of the file, and the time of the run at each; the model is off by a gain and a level. */
function place(stampOf: (k: number) => number, runOf: (k: number) => number, stated_s: number | null = null) {
  const random = new Random(4);
  const all = Float64Array.from({ length: count }, (_, k) => k);
  const values = all.map((k) => 0.2 + 1.01 * steps(runOf(k)) + 0.01 * random.gaussian());
  const column = { column: 'probe', channel, time_s: all.map(stampOf), values };
  return placing(pairsOf([column], new Map([[channel, model]])), { at_s: stated_s });
}
const even = (k: number): number => interval_s * k;
const later = (by_s: number) => (k: number) => even(k) + (k < 0.4 * count ? 0 : by_s);

describe('placing()', () => {
  test('finds the place where stamps are right, beside a model with another gain', () => {
    const found = place(even, (k) => 0.2 + even(k));
    expect([found.aligned, found.confidence_ratio! > 0.99]).toEqual(['found', true]);
    expect(Math.abs(found.at_s - 0.2)).toBeLessThan(0.001);
  });

  test.each([0.25, 0.6])(
    'is not sure where the stamps jump by %f s, and says where and by how much',
    (by_s) => {
      const found = place(later(by_s), (k) => 0.2 + even(k));
      expect([found.aligned, found.confidence_ratio! < 0.01]).toEqual(['assumed', true]);
      const [, at, apart, way] = /from about ([\d.]+) s of the file on .* run ([\d.]+) ms (\w+)/.exec(
        found.warnings.join(' '),
      )!;
      expect([Number(at), way]).toEqual([expect.closeTo(1.2 + by_s, 2), 'earlier']);
      expect(Math.abs(Number(apart) - 1000 * by_s)).toBeLessThan(1000 * interval_s);
    },
  );

  test('is not sure where a stretch is missing between stamps that go on', () => {
    const found = place(even, (k) => 0.2 + later(0.3)(k));
    expect(found.aligned).toBe('assumed');
    expect(found.warnings.join(' ')).toMatch(
      /run (29|30)\d(\.\d)? ms later than before.*a stretch of time is missing/,
    );
  });

  test('takes a gap that is one', () => {
    const found = place(later(0.25), (k) => 0.2 + later(0.25)(k));
    expect([found.aligned, found.confidence_ratio! > 0.99]).toEqual(['found', true]);
  });
});

describe('a stated place', () => {
  test('is taken in silence where it is right, and where it is off by less than the model could make it', () => {
    for (const stated_s of [0.2, 0.203]) {
      expect(place(even, (k) => 0.2 + even(k), stated_s).warnings).toEqual([]);
    }
  });

  test('is taken and doubted where another fits clearly better, with that place', () => {
    const found = place(even, (k) => 0.2 + even(k), 0.9);
    expect([found.at_s, found.aligned]).toEqual([0.9, 'given']);
    expect(found.warnings.join(' ')).toMatch(
      /^The stated place, 900 ms .* fits clearly worse than 200 ms, 700 ms earlier/,
    );
  });
});
