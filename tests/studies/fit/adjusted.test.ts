import { expect, test } from 'vitest';
import { adjustedOf, onGrid } from '../../../src/studies/fit/adjusted.ts';
import { suspectsIn } from '../../../src/studies/fit/usual-suspects.ts';
import { readShipped } from '../../scenario/shipped.ts';

const read = readShipped('scenarios/bench-step.yaml');

test('adjustedOf() takes ranges from the model, and asks for one where the model states none', () => {
  const [droop] = adjustedOf(['shelves.droop'], read);
  expect([droop!.low < droop!.start, droop!.start < droop!.high]).toEqual([true, true]);
  expect(() => adjustedOf(['load.after', 'shelves.drop'], read)).toThrowErrorMatchingInlineSnapshot(`
    [BadInput: load.after
      found     a parameter whose model states no range
      expected  a range from low to high
      mend      give --adjust "load.after = 6 kW to 24 kW"
    shelves.drop
      found     path shelves.drop
      expected  a number of the scenario
      mend      nearest: shelves.droop, shelves.add, shelves.cost
    2 problems. Nothing was run.]
  `);
  expect(() => adjustedOf([], read)).toThrow(/nothing to adjust/);
});

test.each([
  [['shelves.droop', 'banks.capacitance', 'shelves.droop'], /--adjust {2}shelves\.droop\n.*named twice/s],
  [
    ['shelves.droop', 'shelves.S1.droop'],
    /shelves\.S1\.droop beside shelves\.droop, which reaches it.*leave one of them out/s,
  ],
])('adjustedOf() refuses paths that reach the same value: %s', (words, why) => {
  expect(() => adjustedOf(words, read)).toThrow(why);
});

test('a parameter is no suspect where a unit of it is adjusted', () => {
  const paths = (words: readonly string[]): string[] =>
    suspectsIn(read, adjustedOf(words, read)).map(({ path }) => path);
  expect(paths(['banks.capacitance'])).toContain('shelves.droop');
  expect(paths(['shelves.S1.droop'])).not.toContain('shelves.droop');
});

test('adjustedOf() keeps the range of the model where a change has written over its value', () => {
  const [own] = adjustedOf(['shelves.droop'], read);
  const changes = [
    { path: 'shelves.droop', value: '0.7 mΩ' },
    { path: 'shelves.droop', value: '0.71 mΩ' },
  ];
  const [set] = adjustedOf(['shelves.droop'], readShipped('scenarios/bench-step.yaml', [], { changes }));
  expect(set).toMatchObject({ low: own!.low, high: own!.high, start: expect.closeTo(0.71e-3, 9) });
});

test('adjustedOf() asks for a range that can be typed as it stands', () => {
  const mendOf = (path: string, value: string): string => {
    try {
      adjustedOf([path], readShipped('scenarios/bench-step.yaml', [], { changes: [{ path, value }] }));
    } catch (error) {
      return /give .*/.exec(String(error))![0];
    }
    return 'none';
  };
  expect(mendOf('load.before', '0 W')).toBe('give --adjust "load.before = LOW to HIGH"');
  expect(mendOf('load.before', '1.23456 kW')).toBe('give --adjust "load.before = 617 W to 2.47 kW"');
});

test('onGrid() gives whole ticks and whole counts, inside the range', () => {
  const [latency, count] = adjustedOf(
    ['firmware.smoothing.latency = 0.30001 ms to 4 ms', 'shelves.module_count = 3 to 9'],
    read,
  );
  expect(onGrid(latency!, 0.3001234e-3)).toBe(0.30025e-3);
  expect(onGrid(latency!, 0)).toBe(0.30025e-3);
  expect([onGrid(count!, 4.4), onGrid(count!, 1), onGrid(count!, 99)]).toEqual([4, 3, 9]);
});
