import { expect, it } from 'vitest';
import { envelopeColumns } from '../../web/envelope-columns.ts';
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
