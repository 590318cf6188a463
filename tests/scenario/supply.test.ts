import { expect, it } from 'vitest';
import { readShipped } from './shipped.ts';

const found = (name: string, ...pairs: readonly (readonly [path: string, value: string])[]) =>
  readShipped(`scenarios/${name}.yaml`, [], {
    changes: pairs.map(([path, value]) => ({ path, value })),
  }).warnings.map(({ path, found }) => `${path}: ${found}`);

it('warns of a load that no shelf can carry for good, before anything is run', () => {
  // Eight shelves of 36 kW at 120 % are 345.6 kW.
  expect(found('single-step', ['load.before', '346 kW'])).toEqual(['load.before: 346 kW without an end']);
  expect(found('pulse-train', ['shelves.count', '3'], ['shelves.current_limit', '100 %'])).toContainEqual(
    expect.stringMatching(/^load\.high: \d+(\.\d)? kW without an end$/),
  );
});

it('says nothing of a step that shelves cannot follow: that is what a run is for', () => {
  expect(found('single-step', ['load.before', '340 kW'], ['load.after', '400 kW'])).toEqual([]);
});
