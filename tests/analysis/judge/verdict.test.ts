import { expect, test } from 'vitest';
import { entry } from '../../../src/analysis/basis/entry.ts';
import { bindingFirst } from '../../../src/analysis/judge/findings.ts';
import { openLimits } from '../../../src/analysis/judge/open-limits.ts';
import type { Finding, FindingVerdict, Verdict } from '../../../src/analysis/judge/report.ts';
import { concluded, type Grounds, verdictOf } from '../../../src/analysis/judge/verdict.ts';
import type { Status } from '../../../src/engine/result.ts';

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
  ['stopped', ['pass', 'fail'], 'inconclusive'],
  ['non_finite', ['pass', 'fail'], 'inconclusive'],
  ['audit_open', ['pass'], 'inconclusive'],
];

const grounds = (
  status: Status,
  verdicts: readonly FindingVerdict[],
  more: Partial<Pick<Grounds, 'collapse' | 'basis'>> = {},
): Grounds => ({
  status,
  failure: null,
  collapse: null,
  supply_collapse: null,
  basis: [],
  findings: verdicts.map((verdict, k) => finding(`limit-${k + 1}`, verdict, null)),
  ...more,
});

const finding = (id: string, verdict: FindingVerdict, headroom_ratio: number | null): Finding =>
  ({
    id,
    title: `Title of ${id}`,
    verdict,
    waived_from: verdict === 'waived' ? 'fail' : null,
    value: null,
    limit: null,
    unit: '',
    node: null,
    headroom_ratio,
    within_doubt: false,
  }) as Finding;

test.each(table)('a run that ends %s with %j is %s', (status, verdicts, expected) => {
  expect(verdictOf(grounds(status, verdicts))).toBe(expected);
});

test('waiving what could not be judged leaves a run in which nothing was judged', () => {
  const open: Finding = { ...finding('trim', 'waived', null), waived_from: 'inconclusive' };
  const nothing: Grounds = { ...grounds('ok', ['inconclusive']), findings: [open] };
  expect(verdictOf(nothing)).toBe('inconclusive');
  expect(concluded(nothing).summary).toBe('Inconclusive: no limit could be judged; waived: trim.');
  expect(verdictOf({ ...nothing, findings: [open, finding('bus', 'pass', 1)] })).toBe('pass_with_conditions');
});

const condition = entry('stated', 'coolant at 30 °C', { conditions: true });

test('a condition of the basis conditions a pass, and does not soften a fail; what is only told does neither', () => {
  expect(verdictOf(grounds('ok', ['pass'], { basis: [condition] }))).toBe('pass_with_conditions');
  expect(verdictOf(grounds('ok', ['fail'], { basis: [condition] }))).toBe('fail');
  expect(verdictOf(grounds('ok', ['pass'], { basis: [{ ...condition, conditions: false }] }))).toBe('pass');
});

test('a pass within the doubt is a condition and named so; a fail within it stays a fail', () => {
  const doubtful = (verdict: FindingVerdict): Grounds => ({
    ...grounds('ok', []),
    findings: [{ ...finding('trim', verdict, verdict === 'pass' ? 0.01 : -0.01), within_doubt: true }],
  });
  expect(verdictOf(doubtful('pass'))).toBe('pass_with_conditions');
  expect(concluded(doubtful('pass')).summary).toMatch(/; within the doubt: trim\.$/);
  expect(verdictOf(doubtful('fail'))).toBe('fail');
});

const dark =
  'the cabinet collapsed: all sleds were off at 0.8 s, after B1, B2: charge at its lower end, stops';

test.each<[string, Grounds]>([
  ['every limit waived', grounds('ok', ['waived', 'waived'], { collapse: dark })],
  ['every limit passed', grounds('ok', ['pass', 'pass'], { collapse: dark })],
  ['nothing judged', grounds('collapsed', [], { collapse: dark })],
])('a cabinet that collapsed fails with %s, and its cause is the headline', (_, collapsed) => {
  expect(concluded(collapsed)).toMatchObject({
    verdict: 'fail',
    summary: `Fails: ${dark}.`,
  });
});

test('a supply that collapsed leads the headline, before the limits that it broke', () => {
  const supply_collapse = 'the supply of F1 collapsed at 3.98 s';
  expect(concluded({ ...grounds('ok', ['fail', 'fail']), supply_collapse }).summary).toBe(
    `Fails: ${supply_collapse}; Title of limit-1 is exceeded, and 1 more exceeds its limit.`,
  );
});

test.each<Status>(['audit_open', 'non_finite'])(
  '%s comes before a collapse, which is told behind it',
  (status) => {
    const both = concluded(grounds(status, ['fail', 'waived'], { collapse: dark }));
    expect(both.verdict).toBe('inconclusive');
    expect(both.summary).toMatch(
      /^Inconclusive: numerical failure, .*; also the cabinet collapsed: all sleds/,
    );
  },
);

test('the headline names a few conditions of each kind, then how many more', () => {
  const many = concluded({
    ...grounds('ok', ['inconclusive', 'inconclusive', 'waived', 'inconclusive', 'inconclusive', 'pass']),
    basis: ['one', 'two', 'three'].map((what) => ({ ...condition, what })),
  });
  expect(many.summary).toBe(
    'Passes with conditions: Title of limit-6 comes closest; waived: limit-3; ' +
      'inconclusive: limit-1, limit-2, limit-4 and 1 more; on condition: one; two and 1 more.',
  );
});

test('the headline counts the limits that a list of the findings counts, both columns of one id among them', () => {
  const both = (['normal', 'carry', 'normal', 'normal'] as const).map((column, k) => ({
    ...finding(k < 2 ? 'bus' : `limit-${k}`, 'inconclusive', null),
    column,
  }));
  const { summary, findings } = concluded({ ...grounds('ok', ['pass']), findings: both });
  expect(summary).toBe(
    'Inconclusive: no limit could be judged; inconclusive: bus, bus (carry), limit-2 and 1 more.',
  );
  expect(openLimits(findings)).toMatchObject([{ word: 'inconclusive', limits: { length: 3 + 1 } }]);
});

test.each([
  [['fail'], 'Fails: Title of limit-1 is exceeded.'],
  [['fail', 'fail', 'pass'], 'Fails: Title of limit-1 is exceeded, and 1 more exceeds its limit.'],
  [['fail', 'fail', 'fail'], 'Fails: Title of limit-1 is exceeded, and 2 more exceed their limits.'],
] as const)('the headline of %j counts what fails beside the first', (verdicts, summary) => {
  expect(concluded(grounds('ok', verdicts)).summary).toBe(summary);
});

test.each([
  [43, 41, 'Title of a is not met, 41 V against 43 V'],
  [43, 45, 'Title of a is exceeded, 45 V against 43 V'],
])('a limit of %d V that fails at %d V says on which side', (limit, value, words) => {
  const findings = [{ ...finding('a', 'fail', -0.1), value, limit, unit: 'V' }];
  expect(concluded({ ...grounds('ok', []), findings }).summary).toContain(words);
});

test('fails stand first, then passes by headroom, then what could not be judged', () => {
  const f = finding;
  const sorted = bindingFirst([
    f('h', 'not_applicable', null),
    f('g', 'waived', -0.2),
    f('e', 'pass', null),
    f('d', 'pass', 0.5),
    f('b', 'fail', -0.1),
    f('f', 'inconclusive', null),
    f('c', 'pass', 0.1),
    f('a', 'fail', null),
  ]);
  expect(sorted.map((x) => x.id).join('')).toBe('abcdefgh');
});
