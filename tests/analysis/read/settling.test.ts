import { expect, test } from 'vitest';
import { readSettling } from '../../../src/analysis/read/settling.ts';
import { caseOf } from '../../../src/analysis/record/case.ts';
import { demandOf, resultOf, scenarioOf } from '../fixture.ts';

/** Two shelves of 720 A that lie `apart` A from their mean at second t; load jumps at 5 s and at 10 s. */
function settle(apart: (t: number) => number) {
  const base = resultOf();
  const { from_s, width_s } = base.means;
  const column = (at: (t: number) => number): Float64Array =>
    Float64Array.from({ length: 2880 }, (_, j) => at(from_s + (j + 0.5) * width_s));
  const columns = new Map([
    ['total.load_W', column((t) => (t > 5 && t < 10 ? 50_000 : 20_000))],
    ['S1.current_A', column((t) => 400 + apart(t))],
    ['S2.current_A', column((t) => 400 - apart(t))],
  ]);
  const result = { ...base, means: { ...base.means, columns } };
  return readSettling(caseOf(scenarioOf(), demandOf({ period_ticks: null }), result));
}

test('time runs from the edge to the last mean that lies more than 5 % of rated apart', () => {
  const reading = settle((t) => (t > 5 ? 100 * Math.exp(-(t - 5) / 0.1) : 0));
  // 36 A are 5 % of 720 A: reached 0.1 · ln(100/36) = 102 ms after the edge; read to within 10 ms.
  expect(reading.value!).toBeGreaterThan(0.0999);
  expect(reading.value!).toBeLessThan(0.1121);
  expect(reading).toMatchObject({ node: 'S1', share_seen: 1 });
  expect(reading.unsettled).toBeUndefined();
  expect(reading.time_s!).toBeCloseTo(5, 9);
});

test('shelves that stay apart until the next edge settle nothing: they may have taken longer', () => {
  const reading = settle((t) => (t > 5 && t < 10 ? 50 : 0));
  expect(reading.value!).toBeCloseTo(5, 9);
  expect(reading.unsettled).toEqual({
    because: 'still apart when the next edge or the end came',
    truth: 'worse',
  });
});

test('shelves that never part settle at once', () => {
  expect(settle(() => 10).value).toBe(0);
});
