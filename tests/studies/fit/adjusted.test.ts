import { expect, test } from 'vitest';
import { adjustedOf, onGrid } from '../../../src/studies/fit/adjusted.ts';
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
      mend      nearest: shelves.droop, shelves.add, shelves.move
    2 problems. Nothing was run.]
  `);
  expect(() => adjustedOf([], read)).toThrow(/nothing to adjust/);
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
