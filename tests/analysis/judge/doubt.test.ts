import { describe, expect, it } from 'vitest';
import { notGuarded } from '../../../src/analysis/basis/rule.ts';
import { withDoubt } from '../../../src/analysis/judge/doubt.ts';
import type { Finding, Report } from '../../../src/analysis/judge/report.ts';
import { readTextFile } from '../../../src/disk/read-file.ts';
import { run } from '../../../src/run.ts';
import { readScenario } from '../../../src/scenario/read.ts';
import { plainFinding } from '../../fixtures/finding.ts';

function finding(changes: Partial<Finding>): Finding {
  return {
    ...plainFinding,
    id: 'a-limit',
    title: 'A limit',
    verdict: 'pass',
    value: 4,
    limit: 5,
    unit: 'V',
    headroom_ratio: 0.2,
    ...changes,
  };
}

const report = (findings: readonly Finding[], more: Partial<Report> = {}): Report =>
  ({
    status: 'ok',
    failure: null,
    collapse: null,
    supply_collapse: null,
    outcome: { kind: 'steady', because: 'nothing stopped', chain: [] },
    window_s: { from: 0, to: 30 },
    basis: [notGuarded],
    ...more,
    findings,
  }) as unknown as Report;

/** The report at the run's own step, and as the three variations give it. */
function doubted(own: Report, ...others: readonly Report[]): Report {
  const hows = ['at half the step', 'at a quarter of the step', 'nudged'];
  return withDoubt(
    own,
    others.map((other, k) => ({ how: hows[k]!, report: other })),
  );
}

const one = (own: Partial<Finding>, ...others: readonly Partial<Finding>[]): Finding =>
  doubted(report([finding(own)]), ...others.map((other) => report([finding(other)]))).findings[0]!;

describe('withDoubt', () => {
  it('is the largest distance that the headroom moves, whichever variation moves it', () => {
    const moved = (...headrooms: readonly number[]) =>
      one({}, ...headrooms.map((headroom_ratio) => ({ headroom_ratio }))).doubt_ratio;
    expect(moved(0.17, 0.19, 0.2)).toBeCloseTo(0.03, 12);
    expect(moved(0.19, 0.12, 0.2)).toBeCloseTo(0.08, 12);
    expect(moved(0.2, 0.2, 0.25)).toBeCloseTo(0.05, 12);
  });

  it('takes the value over its limit where there is no headroom', () => {
    const count = { headroom_ratio: null, value: 3, limit: 4 };
    expect(one(count, { ...count, value: 5 }).doubt_ratio).toBeCloseTo(0.5, 12);
  });

  it('makes a pass whose headroom lies in the doubt a condition, and leaves a fail there a fail', () => {
    const pass = doubted(
      report([finding({ headroom_ratio: 0.02 })]),
      report([finding({ headroom_ratio: 0.05 })]),
    );
    expect(pass).toMatchObject({
      verdict: 'pass_with_conditions',
      summary: expect.stringContaining('within the doubt: a-limit'),
    });
    expect(pass.findings[0]).toMatchObject({
      verdict: 'pass',
      within_doubt: true,
      reason: 'within the doubt: it moves by more than its headroom',
    });
    const fail = { verdict: 'fail', headroom_ratio: -0.02 } as const;
    const failed = doubted(report([finding(fail)]), report([finding({ ...fail, headroom_ratio: -0.05 })]));
    expect([failed.verdict, failed.findings[0]!.within_doubt]).toEqual(['fail', true]);
  });

  it.each([
    [{ verdict: 'fail', headroom_ratio: -0.01 }, 'at half the step the outcome is fail'],
    [{ verdict: 'inconclusive', headroom_ratio: null }, 'at half the step the outcome is inconclusive'],
    [{ verdict: 'not_applicable', headroom_ratio: null }, 'at half the step the outcome is not applicable'],
  ] as const)('says of a pass that it comes out otherwise: %j', (other, words) => {
    const turned = one({ headroom_ratio: 0.2 }, other, {});
    expect(turned.within_doubt).toBe(true);
    expect(turned.reason).toContain(words);
  });

  it('makes a limit inconclusive that does not arise at this step and is no pass at another', () => {
    const none = { verdict: 'not_applicable', value: null, headroom_ratio: null } as const;
    expect(one(none, none, { verdict: 'fail', headroom_ratio: -1 })).toMatchObject({
      verdict: 'inconclusive',
      reason: 'at a quarter of the step the outcome is fail',
    });
    const carried = finding({ id: 'bus', column: 'carry' });
    const only = doubted(report([finding({})]), report([finding({}), carried])).findings;
    expect(only.find(({ column }) => column === 'carry')).toMatchObject({
      verdict: 'inconclusive',
      reason: 'applies only at half the step: pass',
    });
  });

  it('says that a pass ends otherwise when it is varied', () => {
    const down = report([], { status: 'collapsed', failure: 'the bus collapsed at 3 s' });
    const dark = report([finding({})], {
      outcome: { kind: 'collapsed', because: 'all sleds were off at 3 s', chain: [] },
    });
    const open = report([finding({})], { status: 'audit_open' });
    for (const [other, end] of [
      [down, 'collapsed'],
      [dark, 'collapsed'],
      [open, 'audit open'],
    ] as const) {
      const judged = doubted(report([finding({})]), other);
      expect(judged.verdict).toBe('pass_with_conditions');
      expect(judged.summary).toContain(`on condition: at half the step it ends ${end}, not steady`);
    }
  });

  it('says of a run that collapses whether it does so when it is varied', () => {
    const down = (status: Report['status'], time: string) =>
      report([], {
        status,
        collapse: 'the cabinet is lost',
        outcome: { kind: 'collapsed', because: `all sleds were off at ${time}`, chain: [] },
      });
    for (const status of ['ok', 'collapsed'] as const) {
      const judged = doubted(down(status, '1 s'), down(status, '1.001 s'), down(status, '0.999 s'));
      expect(judged.basis[1]).toMatchObject({
        what: 'it ends collapsed however it is varied',
        reason:
          'all sleds were off at 1 s; at half the step all sleds were off at 1.001 s; ' +
          'at a quarter of the step all sleds were off at 0.999 s',
      });
    }
    const survives = doubted(down('collapsed', '1 s'), report([finding({})]));
    expect(survives.verdict).toBe('fail');
    expect(survives.basis[1]!.what).toBe('at half the step it ends steady, not collapsed');
  });

  it('puts the guard into the basis, in place of the word that there is none', () => {
    const basis = doubted(report([finding({})]), report([finding({})]), report([finding({})])).basis;
    expect(basis).toHaveLength(1);
    expect(basis[0]!.reason).toContain('moves at most, at half the step, at a quarter of the step;');
  });
});

describe('run with doubt', () => {
  it('gives every judged finding a doubt, and the bus less than one per cent of its allowed deviation', () => {
    const { scenario } = readScenario('scenarios/single-step.yaml', {
      files: readTextFile,
      // Half a second after the step, and a little.
      changes: [{ path: 'duration', value: '0.7 s' }],
    });
    const { report: judged } = run(scenario, null, { doubt: true });
    const bus = judged.findings.filter(({ id, verdict }) => id.startsWith('bus-') && verdict === 'pass');
    expect(bus.length).toBeGreaterThan(4);
    for (const { doubt_ratio } of bus) {
      expect(doubt_ratio).not.toBeNull();
      expect(doubt_ratio!).toBeLessThan(0.01);
    }
    expect(bus.some(({ doubt_ratio }) => doubt_ratio! > 0)).toBe(true);
  });
});
