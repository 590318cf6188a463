import { expect, test } from 'vitest';
import { headroomOf } from '../../../src/analysis/judge/headroom.ts';
import { judge } from '../../../src/analysis/judge/judge.ts';
import { isInside, isTie, tie_ratio } from '../../../src/analysis/judge/tie.ts';
import { demandOf, resultOf, row, scenarioOf, stayTable } from '../fixture.ts';

test.each([
  ['what rounding leaves of a clamp on the limit', 0.05 - 7e-17, 0.05, 'lower', true],
  ['a ten-millionth beyond an upper limit', 0.95 * (1 + 1e-7), 0.95, 'upper', true],
  ['a ten-millionth below a lower limit', 48 * (1 - 1e-7), 48, 'lower', true],
  ['ten times the tolerance beyond', 0.95 * (1 + 1e-5), 0.95, 'upper', false],
  ['ten times the tolerance below', 48 * (1 - 1e-5), 48, 'lower', false],
  ['a count above zero', 1, 0, 'upper', false],
  ['a count of zero', 0, 0, 'upper', true],
] as const)('%s keeps the limit: %d against %d (%s): %s', (_, value, limit, side, inside) => {
  expect(isInside(value, limit, side)).toBe(inside);
});

test('a value that keeps its limit by a tie has headroom 0, never a negative one', () => {
  for (const beyond of [1e-7, 9e-7, -9e-7]) {
    const value = 0.95 * (1 + beyond);
    expect(isTie(value, 0.95)).toBe(true);
    expect(headroomOf({ value }, { value: 0.95, side: 'upper' })).toBe(0);
  }
  expect(headroomOf({ value: 48 * (1 - 9e-7), nominal: 50.25 }, { value: 48, side: 'lower' })).toBe(0);
});

test('a bus node that touches the level, or stays below it just as long as it may, keeps the limit', () => {
  const floor = (volts: number) => {
    const result = resultOf({ stays: { ...resultOf().stays, normal: stayTable(2, [[1, 48, 1e-6, 5, 1]]) } });
    const extremes = result.extremes.map((e) =>
      e.channel === 'rack.1.voltage_V' ? { ...e, min: volts } : e,
    );
    const limits = [row('floor', 'bus-stay', 'lower', 0.96, { stay_s: 0 })];
    return judge(scenarioOf({ limits }), demandOf(), { ...result, extremes }).findings[0]!;
  };
  expect(floor(48 * (1 - tie_ratio / 2))).toMatchObject({ verdict: 'pass', headroom_ratio: 0 });
  expect(floor(48 * (1 - 10 * tie_ratio)).verdict).toBe('fail');

  const stay = (stay_s: number) => {
    const stays = {
      ...resultOf().stays,
      normal: stayTable(2, [
        [1, 48, stay_s, 5, 1],
        [1, 48.5, 3, 5, 1],
      ]),
    };
    const limits = [row('steady', 'bus-stay', 'lower', 0.96, { stay_s: 1 })];
    return judge(scenarioOf({ limits }), demandOf(), resultOf({ stays })).findings[0]!;
  };
  expect(stay(1 + 1e-7).verdict).toBe('pass');
  expect(stay(1 + 1e-4).verdict).toBe('fail');
});
