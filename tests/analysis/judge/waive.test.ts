import { expect, test } from 'vitest';
import { judge } from '../../../src/analysis/judge/judge.ts';
import type { Finding } from '../../../src/analysis/judge/report.ts';
import { waive, waiverWords } from '../../../src/analysis/judge/waive.ts';
import { demandOf, resultOf, row, scenarioOf } from '../fixture.ts';

const waiver = { limit: 'ramp', reason: 'agreed', by: 'GP', until: '2030-01-01' };
const finding = (verdict: Finding['verdict'], reason: string | null): Finding =>
  ({ id: 'ramp', verdict, reason, headroom_ratio: -0.5 }) as Finding;

test('a fail and an open limit become waived, with who, until when and what was found', () => {
  expect(waive(finding('fail', 'upwards'), waiver)).toMatchObject({
    verdict: 'waived',
    reason: 'waived by GP until 2030-01-01: agreed; upwards',
    headroom_ratio: -0.5,
  });
  expect(waive(finding('inconclusive', 'needs 20 Hz'), waiver).reason).toBe(
    'waived by GP until 2030-01-01: agreed; it could not be judged: needs 20 Hz',
  );
});

test('a pass stays a pass and what does not arise is left alone', () => {
  expect(waive(finding('pass', null), waiver)).toMatchObject({
    verdict: 'pass',
    reason: 'waived, but it holds by itself',
  });
  const none = finding('not_applicable', 'no AC');
  expect(waive(none, waiver)).toBe(none);
});

test('nobody signed: the words leave it out', () => {
  expect(waiverWords({ limit: 'x', reason: 'agreed', by: null, until: null })).toBe('waived: agreed');
});

test('a waiver whose last day has passed no longer counts; on that day it still does', () => {
  const scenario = (judged_on: string) => ({
    ...scenarioOf({
      limits: [row('tray-rms', 'tray-capacitor-rms', 'upper', 0.1)],
      waivers: [{ ...waiver, limit: 'tray-rms' }],
    }),
    judged_on,
  });
  const late = judge(scenario('2030-01-02'), demandOf(), resultOf());
  expect([late.verdict, late.judged_on]).toEqual(['fail', '2030-01-02']);
  expect(late.findings[0]).toMatchObject({
    verdict: 'fail',
    reason: expect.stringMatching(/no longer waived by GP until 2030-01-01: agreed$/),
  });
  expect(judge(scenario('2030-01-01'), demandOf(), resultOf()).findings[0]!.verdict).toBe('waived');
});

test('a waived fail lets the run pass with conditions; the waiver is in the report', () => {
  const scenario = scenarioOf({
    limits: [row('tray-rms', 'tray-capacitor-rms', 'upper', 0.1), row('trim', 'trim', 'upper', 0.8)],
    waivers: [{ ...waiver, limit: 'tray-rms' }],
  });
  const report = judge(scenario, demandOf(), resultOf());
  expect(report.verdict).toBe('pass_with_conditions');
  expect(report.summary).toMatch(/; waived: tray-rms\.$/);
  expect(report.waivers).toEqual([{ ...waiver, limit: 'tray-rms' }]);
  expect(report.findings.find((f) => f.id === 'tray-rms')?.verdict).toBe('waived');
});
