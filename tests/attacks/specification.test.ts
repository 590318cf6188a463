/** Specifications turned against their statement: on a bench of one unit each none of them reads better than the run is. */
import { describe, expect, it } from 'vitest';
import type { Report } from '../../src/analysis/judge/report.ts';
import { readTextFile } from '../../src/disk/read-file.ts';
import { run } from '../../src/run.ts';
import { readScenario } from '../../src/scenario/read.ts';

const head = 'clause,requirement,metric,bound,unit,stay,band,applies,source';

function reportOn(rows: readonly string[], changes: Readonly<Record<string, string>> = {}): Report {
  const text = [head, ...rows].join('\n');
  const { scenario } = readScenario('scenarios/bench-step.yaml', {
    files: (path) => (path === 'spec.csv' ? { text, sha256: '00' } : readTextFile(path)),
    changes: Object.entries({ duration: '1.2 s', limits: 'spec.csv', ...changes }).map(([path, value]) => ({
      path,
      value,
    })),
  });
  return run(scenario, null).report;
}

function statesOf({ statement }: Report): Readonly<Record<string, string>> {
  return Object.fromEntries(statement!.lines.map(({ requirement, state }) => [requirement.clause, state]));
}

/** The bus of the bench stays between 49.5 V and 50.7 V after a step to 12 kW. */
const rows = [
  '1,lowest at any moment,bus-stay,>= 47 V,,0 s,,normal,DC',
  '2,too high for it,bus-stay,>= 50.2 V,,2 ms,,normal,DC',
  '3,the second row of the same,bus-stay,>= 46 V,,0 s,,degraded,DC',
  '4,in per cent of nominal,bus-stay,<= 102 %,,20 ms,,normal,DC',
  '5,no batteries here,battery-starts,<= 0,,,,normal,B',
  '6,flicker of ten minutes,flicker-pst,<= 1,1,,,normal,AC',
  '7,noise,,<= 70 dB,,,,normal,B',
];

describe('a bound on the other side of what the bus is at', () => {
  it('shows the node that comes nearest, and no voltage that never was', () => {
    const report = reportOn([
      '1,below what the shelves hold,bus-stay,<= 50 V,,0 s,,normal,DC',
      '2,far above it,bus-stay,>= 55 V,,1 s,,normal,DC',
    ]);
    const [upper, lower] = report.statement!.lines.map(({ worst }) => worst!);
    expect(statesOf(report)).toEqual({ 1: 'not_met', 2: 'not_met' });
    expect(upper!.value).toBeCloseTo(report.metrics!.bus_max_V!, 6);
    expect(lower!.value).toBeLessThanOrEqual(report.metrics!.bus_max_V!);
  });
});

describe('a statement on a run', () => {
  const report = reportOn(rows);

  it('answers each line by its own finding', () => {
    expect(statesOf(report)).toEqual({
      1: 'met',
      2: 'not_met',
      3: 'open',
      4: 'met',
      5: 'open',
      6: 'open',
      7: 'open',
    });
    const [low, , , share] = report.statement!.lines;
    expect(low?.worst?.margin).toBeCloseTo(
      report.findings.find(({ id }) => id === 'clause-1')!.value! - 47,
      9,
    );
    // In per cent of 50 V: what is left to 102 %.
    expect(share?.worst?.margin).toBeCloseTo(102 - share!.worst!.value!, 9);
    expect(share?.worst?.value).toBeGreaterThan(99);
    expect(share?.worst?.value).toBeLessThan(102);
  });

  it('conditions the verdict of the run by what nothing here judges', () => {
    const { verdict, basis } = reportOn([rows[0]!, rows[6]!]);
    expect(verdict).toBe('pass_with_conditions');
    expect(basis.filter(({ conditions }) => conditions).map(({ what }) => what)).toEqual([
      '2 requirements of spec.csv in place of limits of our own; of these 1 open: 7',
    ]);
    expect(reportOn([rows[0]!]).verdict).toBe('pass');
  });
});

describe('what would make a line read better', () => {
  it('is no change of the limit that judges it', () => {
    const loosened = reportOn([rows[1]!], { 'limits.clause-2.normal': '40 V' });
    expect(loosened.verdict).not.toBe('fail');
    expect(statesOf(loosened)).toEqual({ 2: 'open' });
    expect(loosened.statement?.lines[0]?.because).toBe('judged by another bound: normal 40 V');
    // The bus lies beyond it for good, which is longer than any stay.
    expect(statesOf(reportOn([rows[1]!], { 'limits.clause-2.stay': '5 s' }))).toEqual({ 2: 'not_met' });
    expect(statesOf(reportOn([rows[1]!], { 'limits.clause-2.normal': 'none' }))).toEqual({ 2: 'open' });
  });

  it('is no other nominal voltage, of which a bound in per cent is a share', () => {
    const report = reportOn([rows[3]!], { nominal: '60 V' });
    expect(statesOf(report)).toEqual({ 4: 'met_with_conditions' });
    expect(report.statement?.conditions.join()).toMatch(/nominal/);
  });

  it('is no stated outage in which nothing was out', () => {
    expect(statesOf(reportOn([rows[2]!], { outage: 'yes' }))).toEqual({ 3: 'open' });
  });

  it('is no run that is too short for it', () => {
    expect(statesOf(reportOn([rows[0]!], { duration: '0.3 s' }))).toEqual({ 1: 'open' });
  });
});
