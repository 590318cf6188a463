import { expect, test } from 'vitest';
import { withBracket } from '../../../src/analysis/judge/bracket.ts';
import { judge } from '../../../src/analysis/judge/judge.ts';
import type { Report } from '../../../src/analysis/judge/report.ts';
import { demandOf, resultOf, scenarioOf } from '../fixture.ts';

const smooth = judge(scenarioOf(), demandOf(), resultOf());
const with_ = (id: string, changes: object): Report => ({
  ...smooth,
  findings: smooth.findings.map((f) => (f.id === id ? { ...f, ...changes } : f)),
});

test('both readings are told; of two passes the worse one counts', () => {
  const sharp = with_('ramp-1s', { value: 9e3, headroom_ratio: 0.1 });
  const found = withBracket(smooth, sharp).findings.find((f) => f.id === 'ramp-1s')!;
  expect(found).toMatchObject({ verdict: 'pass', value: 9e3, headroom_ratio: 0.1 });
  expect(found.bracket![1]).toBe(9e3);
  expect(found.bracket![0]).toBeLessThan(2e3);
});

test('what only one reading keeps cannot be judged, and the verdict follows', () => {
  const sharp = with_('ramp-1s', { verdict: 'fail', value: 5e4, headroom_ratio: -1.5 });
  const report = withBracket(smooth, sharp);
  const found = report.findings.find((f) => f.id === 'ramp-1s')!;
  expect(found).toMatchObject({ verdict: 'inconclusive', headroom_ratio: null });
  expect(found.reason).toBe(
    'read sharp between its samples the recording exceeds it, read the other way it does not',
  );
  expect(report.verdict).toBe('pass_with_conditions');
});

test('a fail that the other reading does not know, or has no value for, is open too', () => {
  const carried = {
    ...smooth.findings[0]!,
    id: 'floor',
    column: 'carry',
    verdict: 'fail',
    headroom_ratio: -1,
  } as const;
  const only = withBracket(smooth, { ...smooth, findings: [...smooth.findings, carried] });
  expect(only.findings.find(({ column }) => column === 'carry')!.verdict).toBe('inconclusive');
  expect(only.verdict).toBe('pass_with_conditions');

  const none = with_('ramp-1s', { verdict: 'not_applicable', value: null, headroom_ratio: null });
  const sharp = with_('ramp-1s', { verdict: 'fail', value: 5e4, headroom_ratio: -1.5 });
  for (const report of [withBracket(none, sharp), withBracket(sharp, none)]) {
    expect(report.findings.find((f) => f.id === 'ramp-1s')!.verdict).toBe('inconclusive');
    expect(report.verdict).toBe('pass_with_conditions');
  }
});
