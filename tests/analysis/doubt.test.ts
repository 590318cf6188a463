import { describe, expect, it } from 'vitest';
import { withDoubt } from '../../src/analysis/doubt.ts';
import type { Finding, Report } from '../../src/analysis/report.ts';
import { readTextFile } from '../../src/cli/files.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';

function finding(changes: Partial<Finding>): Finding {
  return {
    id: 'a-limit',
    title: 'A limit',
    source: 'assumed: for the test',
    column: 'normal',
    verdict: 'pass',
    value: 4,
    limit: 5,
    unit: 'V',
    headroom_ratio: 0.2,
    node: null,
    time_s: null,
    duration_s: null,
    count: null,
    doubt_ratio: null,
    bracket: null,
    share_seen_ratio: null,
    worst_outside: null,
    reason: null,
    chain: [],
    ...changes,
  };
}

const report = (...findings: Finding[]): Report => ({ findings }) as unknown as Report;

function doubted(coarse: Partial<Finding>, fine: Partial<Finding>): Finding {
  return withDoubt(report(finding(coarse)), report(finding(fine))).findings[0]!;
}

describe('withDoubt', () => {
  it('is the distance the headroom moved', () => {
    expect(doubted({}, { headroom_ratio: 0.17 }).doubt_ratio).toBeCloseTo(0.03, 12);
  });

  it('takes the value over its limit where there is no headroom', () => {
    const count = { headroom_ratio: null, value: 3, limit: 4 };
    expect(doubted(count, { ...count, value: 5 }).doubt_ratio).toBeCloseTo(0.5, 12);
  });

  it('says when the headroom is smaller than the doubt', () => {
    expect(doubted({ headroom_ratio: 0.02 }, { headroom_ratio: 0.05 }).reason).toBe(
      'its headroom is smaller than its doubt: not settled at this step',
    );
  });

  it('says when the verdict itself turns', () => {
    expect(doubted({}, { verdict: 'fail', headroom_ratio: -0.01 }).reason).toBe(
      'at half the step it comes out fail: not settled at this step',
    );
  });

  it('leaves a finding alone that the finer run does not have', () => {
    expect(withDoubt(report(finding({})), report()).findings[0]!.doubt_ratio).toBeNull();
  });
});

describe('run with doubt', () => {
  it('gives every judged finding a doubt, and the bus less than one per cent of its allowed deviation', () => {
    const { scenario } = readScenario('scenarios/single-step.yaml', {
      files: readTextFile,
      changes: [{ path: 'duration', value: '0.6 s' }],
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
