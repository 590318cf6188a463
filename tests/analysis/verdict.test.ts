import { expect, test } from 'vitest';
import { bindingFirst } from '../../src/analysis/findings.ts';
import type { Finding, FindingVerdict, Verdict } from '../../src/analysis/report.ts';
import { verdictOf } from '../../src/analysis/verdict.ts';
import type { Status } from '../../src/engine/result.ts';

const table: readonly [Status, readonly FindingVerdict[], Verdict][] = [
  ['ok', ['pass', 'pass'], 'pass'],
  ['ok', ['pass', 'not_applicable'], 'pass'],
  ['ok', ['pass', 'inconclusive'], 'pass_with_conditions'],
  ['ok', ['pass', 'waived'], 'pass_with_conditions'],
  ['ok', ['waived'], 'pass_with_conditions'],
  ['ok', ['pass', 'inconclusive', 'fail'], 'fail'],
  ['ok', ['inconclusive', 'not_applicable'], 'inconclusive'],
  ['ok', [], 'inconclusive'],
  ['collapsed', ['pass'], 'fail'],
  ['collapsed', [], 'fail'],
  ['stopped', ['pass'], 'inconclusive'],
  ['stopped', ['pass', 'fail'], 'fail'],
  ['non_finite', ['pass', 'fail'], 'inconclusive'],
  ['audit_open', ['pass'], 'inconclusive'],
];

test.each(table)('a run that ends %s with %j is %s', (status, verdicts, expected) => {
  expect(
    verdictOf(
      status,
      verdicts.map((verdict) => ({ verdict })),
    ),
  ).toBe(expected);
});

test('a condition that a reviewer states conditions a pass, and does not soften a fail', () => {
  expect(verdictOf('ok', [{ verdict: 'pass' }], ['coolant at 30 °C'])).toBe('pass_with_conditions');
  expect(verdictOf('ok', [{ verdict: 'fail' }], ['coolant at 30 °C'])).toBe('fail');
});

test('fails stand first, then passes by headroom, then what could not be judged', () => {
  const f = (id: string, verdict: FindingVerdict, headroom_ratio: number | null): Finding =>
    ({ id, verdict, headroom_ratio }) as Finding;
  const sorted = bindingFirst([
    f('g', 'not_applicable', null),
    f('e', 'pass', null),
    f('d', 'pass', 0.5),
    f('b', 'fail', -0.1),
    f('f', 'inconclusive', null),
    f('c', 'pass', 0.1),
    f('a', 'fail', null),
  ]);
  expect(sorted.map((x) => x.id).join('')).toBe('abcdefg');
});
