/** What findings say of requirements: never more than the run's own verdict. */
import { describe, expect, it } from 'vitest';
import { entry } from '../../../src/analysis/basis/entry.ts';
import type { Finding } from '../../../src/analysis/judge/report.ts';
import type { AskedRequirement, Statement, StatementLine } from '../../../src/analysis/statement/line.ts';
import type { RunGrounds } from '../../../src/analysis/statement/shown-in.ts';
import { stated, together } from '../../../src/analysis/statement/state.ts';
import { statementCsv } from '../../../src/analysis/statement/statement-csv.ts';
import { statementHead } from '../../../src/analysis/statement/words.ts';
import { plainFinding } from '../../fixtures/finding.ts';

const asked: AskedRequirement = {
  clause: '3.1',
  words: 'the bus',
  metric: 'bus-stay',
  bound: '<= 53000 mV',
  applies: 'normal',
  source: 'DC-1',
  file: 'spec.csv',
  line: 2,
  judged: {
    limit: 'clause-3-1',
    columns: ['normal'],
    value: 53,
    stay_s: 1,
    band_Hz: null,
    side: 'upper',
    unit: 'mV',
    per_unit: 1e-3,
  },
  shown_by: '',
  SI_per_unit: 1e-3,
  altered: null,
};

const pass: Finding = {
  ...plainFinding,
  id: 'clause-3-1',
  title: 'the bus',
  verdict: 'pass',
  value: 51,
  limit: 53,
  unit: 'V',
  headroom_ratio: 0.5,
  node: 'A.S1',
  time_s: 2,
};

const good: RunGrounds = { status: 'ok', failure: null, collapse: null, findings: [pass], basis: [] };

function blank(requirement: AskedRequirement, run = 'one', carries = true): Statement {
  const line: StatementLine = {
    requirement,
    state: 'open',
    worst: null,
    shown: [],
    not_shown: [],
    conditions: [],
    because: null,
  };
  return { file: 'spec.csv', title: '', runs: [run], carries, conditions: [], lines: [line] };
}

function lineOf(grounds: Partial<RunGrounds>, requirement: Partial<AskedRequirement> = {}): StatementLine {
  return stated(blank({ ...asked, ...requirement }), { ...good, ...grounds }).lines[0]!;
}

const finding = (changes: Partial<Finding>): Partial<RunGrounds> => ({ findings: [{ ...pass, ...changes }] });

describe('a requirement', () => {
  it('is met by a pass, by so much of its own unit, at the place and time of the finding', () => {
    expect(lineOf({})).toMatchObject({
      state: 'met',
      worst: { run: 'one', column: 'normal', node: 'A.S1', time_s: 2 },
      because: null,
    });
    expect(lineOf({}).worst?.value).toBeCloseTo(51_000, 6);
    expect(lineOf({}).worst?.margin).toBeCloseTo(2000, 6);
  });

  it.each([
    ['a fail', finding({ verdict: 'fail', value: 54 }), 'not_met'],
    ['a fail that was waived', finding({ verdict: 'waived', waived_from: 'fail' }), 'not_met'],
    ['an open one that was waived', finding({ verdict: 'waived', waived_from: 'inconclusive' }), 'open'],
    ['what was not judged', finding({ verdict: 'inconclusive', reason: 'too short' }), 'open'],
    [
      'what does not arise',
      finding({ verdict: 'not_applicable', value: null, reason: 'no batteries' }),
      'open',
    ],
    ['no finding', { findings: [] }, 'open'],
    ['a finding of another column', finding({ column: 'degraded' }), 'open'],
    ['a pass of a run that collapsed', { collapse: 'all sleds were off' }, 'open'],
    ['a pass of a run that left the finite numbers', { status: 'non_finite' }, 'open'],
    ['a pass of a run whose audit is open', { status: 'audit_open' }, 'open'],
    ['a pass of a run that was stopped', { status: 'stopped' }, 'open'],
    ['a pass within the doubt', finding({ within_doubt: true }), 'met_with_conditions'],
    [
      'a pass that is worse where it is not judged',
      finding({ worst_outside: { value: 60, time_s: 1, reason: 'over the whole window' } }),
      'met_with_conditions',
    ],
    ['a pass of part of the window', finding({ share_seen_ratio: 0.4 }), 'met_with_conditions'],
    [
      'a pass on conditions',
      { basis: [entry('stated', 'no sun', { conditions: true })] },
      'met_with_conditions',
    ],
    ['a pass where another limit is waived', { basis: [entry('waived', 'x', { conditions: true })] }, 'met'],
  ] as const)('by %s', (_, grounds, state) => {
    expect(lineOf(grounds as Partial<RunGrounds>).state).toBe(state);
  });

  it('is open where it was judged by another bound, and says by which; what fails even so is not met', () => {
    const altered = 'normal 54 V';
    expect(lineOf({}, { altered })).toMatchObject({
      state: 'open',
      because: 'judged by another bound: normal 54 V',
    });
    expect(lineOf(finding({ verdict: 'fail' }), { altered }).state).toBe('not_met');
  });

  it('is open where nothing judges it, with what would show it', () => {
    const line = lineOf({}, { judged: null, SI_per_unit: null, shown_by: 'a hall' });
    expect(line).toMatchObject({ state: 'open', because: 'a hall', worst: null });
  });

  it('says conditions and reasons', () => {
    expect(lineOf(finding({ within_doubt: true })).conditions).toEqual([
      'its margin is within the numerical doubt',
    ]);
    const absent = finding({ verdict: 'not_applicable', value: null, reason: 'no batteries' });
    expect(lineOf(absent).because).toBe('does not arise: no batteries');
    // A life that a run reckons and does not judge has a value: it is open, not absent.
    const reckoned = lineOf(finding({ verdict: 'not_applicable', reason: 'a run does not judge years' }));
    expect([reckoned.state, reckoned.because]).toEqual(['open', 'a run does not judge years']);
  });
});

describe('a requirement of several columns', () => {
  const all: AskedRequirement = {
    ...asked,
    judged: { ...asked.judged!, columns: ['normal', 'carry', 'degraded'] },
  };
  const degraded = finding({ column: 'degraded', value: 52 });

  it('is open until each is shown, and says which are not', () => {
    const [line] = stated(blank(all), good).lines;
    expect(line).toMatchObject({ state: 'open', not_shown: ['carry', 'degraded'] });
    expect(line?.because).toMatch(/^met in normal alone; carry not shown: .*; degraded not shown: /);
  });

  it('is met by runs together, by the smallest margin; without batteries nothing is asked while they carry', () => {
    const one = stated(blank(all, 'one', false), good);
    const two = stated(blank(all, 'two', false), { ...good, ...degraded });
    const [line] = together([one, two]).lines;
    expect(line).toMatchObject({ state: 'met', not_shown: [], worst: { run: 'two' } });
    expect(line?.worst?.margin).toBeCloseTo(1000, 6);
    expect(together([one, one]).lines[0]?.state).toBe('open');
  });

  it('is not met where one run fails, and met with conditions where one leaves open what another shows', () => {
    const met = stated(blank(asked, 'one'), good);
    const fails = stated(blank(asked, 'two'), { ...good, ...finding({ verdict: 'fail', value: 54 }) });
    const short = stated(blank(asked, 'two'), {
      ...good,
      ...finding({ verdict: 'inconclusive', reason: 'short' }),
    });
    expect(together([met, fails]).lines[0]).toMatchObject({ state: 'not_met', worst: { run: 'two' } });
    expect(together([met, short]).lines[0]).toMatchObject({
      state: 'met_with_conditions',
      conditions: ['not shown in two: short'],
    });
    expect(together([met, met], ['models/tray.yaml']).lines[0]?.state).toBe('met_with_conditions');
  });
});

describe('a statement', () => {
  it('counts what is met, not met and open', () => {
    expect(statementHead(stated(blank(asked), good))).toBe(
      'spec.csv: of 1 requirement 1 met, 0 not met, 0 open',
    );
  });

  it('leaves as a table with its conditions, and no cell of it is a formula', () => {
    const basis = [entry('stated', 'no sun, no rain', { conditions: true })];
    const csv = statementCsv(stated(blank({ ...asked, words: '=HYPERLINK("x")' }), { ...good, basis }));
    expect(csv.split('\n')).toEqual([
      'clause,requirement,bound,applies,state,found,margin,unit,run,node,time_s,because,conditions,source',
      `3.1,"'=HYPERLINK(""x"")",<= 53000 mV,normal,met with conditions,51000,2000,mV,one,A.S1,2,,"no sun, no rain",DC-1`,
      '',
    ]);
  });
});
