import { expect, it } from 'vitest';
import { envelopeColumns, lowestUndershot } from '../../web/envelope-columns.ts';
import { syntheticRun } from '../fixtures/run.ts';

const bundle = syntheticRun(10);
const [steady] = bundle.report.findings;

it('envelopeColumns() has one column where no battery carried', () => {
  expect(envelopeColumns(bundle).map(({ title }) => title)).toEqual(['while no battery carries']);
});

it('envelopeColumns() keeps stays and limits of carrying time apart from the others', () => {
  const { stays } = bundle.result;
  const findings = [
    { ...steady!, limit: 48 },
    { ...steady!, limit: 47, column: 'carry' as const },
  ];
  const carry = { ...stays.carry, below_s: stays.carry.below_s.map(() => 0.5) };
  const normal = { ...stays.normal, below_s: stays.normal.below_s.map(() => 0) };
  const columns = envelopeColumns({
    ...bundle,
    report: { ...bundle.report, findings },
    result: { ...bundle.result, stays: { ...stays, normal, carry, carry_s: 3 } },
  });
  expect(columns.map(({ forbidden }) => forbidden.map(({ limit_V }) => limit_V))).toEqual([[48], [47]]);
  expect(columns.map(({ below }) => below.map(({ longest_s }) => longest_s))).toEqual([[], [0.5, 0.5, 0.5]]);
});

it('lowestUndershot() says that its volts are a level that is counted, and not how far the bus fell', () => {
  const below = [{ level_V: 50, longest_s: 1.5414, node: 'sled-18' }];
  expect(lowestUndershot(below)).toBe(
    'Lowest counted level that a node went below: 50.00 V; sled-18 stays below it for 1.54 s at the longest.',
  );
  expect(lowestUndershot([])).toBe('No node went below a level that is counted.');
});
