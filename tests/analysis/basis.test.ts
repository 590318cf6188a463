/** What a verdict rests on: every way of making a pass easier stands in the basis, and those that do condition it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { basisOf } from '../../src/analysis/basis/basis-of.ts';
import { warnedBasis } from '../../src/analysis/basis/warned.ts';
import type { BasisEntry } from '../../src/analysis/basis.ts';
import { judge } from '../../src/analysis/judge/judge.ts';
import type { Finding } from '../../src/analysis/judge/report.ts';
import { concluded } from '../../src/analysis/judge/verdict.ts';
import { caseOf } from '../../src/analysis/record/case.ts';
import type { RecordedSpan } from '../../src/events/spans.ts';
import { RecordedReader } from '../../src/loads/recorded/read-recorded.ts';
import type { RecordedLoad } from '../../src/loads/recorded/recorded-load.ts';
import { run } from '../../src/run.ts';
import { type ReadOptions, readLimitsText } from '../../src/scenario/read.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';
import { readShipped, type Swap } from '../scenario/shipped.ts';
import { demandOf, resultOf, row, scenarioOf } from './fixture.ts';

const file = 'scenarios/pulse-train.yaml';
const limitsFile = 'models/limits-default.yaml';
const shippedLimits = { file: limitsFile, text: readFileSync(limitsFile, 'utf8') };
const shippedRows = readLimitsText(limitsFile, shippedLimits.text);

type Changes = Readonly<Record<string, string>>;

function scenarioWith(
  changes: Changes,
  swaps: readonly Swap[] = [],
  more: Partial<ReadOptions> = {},
): Scenario {
  const list = Object.entries(changes).map(([path, value]) => ({ path, value }));
  return readShipped(file, swaps, { shippedLimits, changes: list, ...more }).scenario;
}

/** The basis of a run in which nothing happens, with one limit passed. */
function basis(
  scenario: Scenario,
  more: { readonly spans?: readonly RecordedSpan[]; readonly recorded?: RecordedLoad } = {},
): readonly BasisEntry[] {
  const { spans = [], recorded = null } = more;
  const counters = { ...resultOf().counters, cycles_to_converge: 3 };
  const result = resultOf({ spans, counters, window: { from_s: 0, to_s: scenario.duration_s } });
  return basisOf(caseOf(scenario, demandOf(), result), recorded, []);
}

const conditionsOf = (entries: readonly BasisEntry[]): string[] =>
  entries.filter(({ conditions }) => conditions).map(({ what }) => what);

function verdictWith(entries: readonly BasisEntry[]): string {
  const pass = {
    id: 'a',
    title: 'A',
    verdict: 'pass',
    value: null,
    limit: null,
    within_doubt: false,
  } as unknown as Finding;
  const ended = { status: 'ok', failure: null, collapse: null, supply_collapse: null } as const;
  return concluded({ ...ended, findings: [pass], basis: entries }).verdict;
}

describe('a run as shipped', () => {
  test('rests on the rule and its day alone, and passes clean', () => {
    const entries = basis({ ...scenarioWith({}), judged_on: '2030-01-01', asked_on: '2030-01-01' });
    expect(entries.map(({ what }) => what)).toEqual([
      'simple acceptance, not guarded',
      'judged on 2030-01-01',
      '75 periods of 0.4 s represent the load, repeated indefinitely',
    ]);
    expect(verdictWith(entries)).toBe('pass');
  });

  test('a design that differs from the files is told with what stood there, and conditions nothing', () => {
    const entries = basis(scenarioWith({ 'trays.capacitance': '130 F', 'banks.K1.esr': '1 mΩ' }));
    expect(entries.filter(({ kind }) => kind === 'changed')).toMatchObject([
      { what: 'trays.capacitance 162.5 F → 130 F', by: '--set', conditions: false },
      { what: expect.stringMatching(/^banks\.K1\.esr \S+ \S+ → 1 mΩ$/), by: '--set', conditions: false },
    ]);
    expect(verdictWith(entries)).toBe('pass');
  });
});

describe('limits that are not the shipped ones', () => {
  test.each<[string, Changes, readonly Swap[], RegExp]>([
    [
      'a number raised for one run',
      { 'limits.trim.normal': '300 %' },
      [],
      /^limit trim, normal: 80 % → 300 % \(looser\)$/,
    ],
    [
      'a lower bound lowered',
      { 'limits.bus-floor.normal': '50 %' },
      [],
      /^limit bus-floor, normal: 86 % → 50 % \(looser\)$/,
    ],
    ['a stay made longer', { 'limits.bus-2ms-low.stay': '1 s' }, [], /stay: 2 ms → 1 s \(looser\)$/],
    ['taken out for one run', { 'limits.trim.normal': 'none' }, [], /normal: 80 % → none \(removed\)$/],
    [
      'raised in the file',
      {},
      [[limitsFile, 'normal: 80 %', 'normal: 99 %']],
      /^limit line-current-continuous, normal: 80 % → 99 % \(looser\)$/,
    ],
    [
      'a row less in the file',
      {},
      [[limitsFile, '  trim:\n', '  trimmed:\n']],
      /^limit trim, row: a limit → no row \(removed\)$/,
    ],
    [
      'the other side in the file',
      {},
      [[limitsFile, 'quantity: trim\n    side: upper', 'quantity: trim\n    side: lower']],
      /^limit trim, side: upper → lower$/,
    ],
    [
      'judged from less of a recording',
      {},
      [[limitsFile, 'needs: 220 Hz', 'needs: 1 Hz']],
      /needs: 220 Hz → 1 Hz \(looser\)$/,
    ],
  ])('%s: a condition, with what it was and who says so', (_, changes, swaps, what) => {
    const entries = basis(scenarioWith(changes, swaps));
    const found = entries.filter(({ kind, conditions }) => kind === 'limits' && conditions);
    expect(found.map((e) => e.what)).toContainEqual(expect.stringMatching(what));
    expect(found[0]!.by).toBe(swaps.length > 0 ? limitsFile : '--set');
    expect(verdictWith(entries)).toBe('pass_with_conditions');
  });

  test('tighter ones are told and condition nothing', () => {
    const entries = basis(scenarioWith({ 'limits.trim.normal': '50 %' }));
    expect(entries.find(({ kind }) => kind === 'limits')).toMatchObject({
      what: 'limit trim, normal: 80 % → 50 % (tighter)',
      conditions: false,
    });
  });

  test.each(['trim', 'ac-ramp-1s', 'bus-floor'])(
    '%s, taken out, is inconclusive and never out of question',
    (id) => {
      const { limits, limits_basis } = scenarioWith({ [`limits.${id}.normal`]: 'none' });
      const own = limits.filter((r) => r.id === id);
      const judged = judge(scenarioOf({ limits: own, limits_basis }), demandOf(), resultOf());
      expect(judged.findings[0]).toMatchObject({
        verdict: 'inconclusive',
        reason: expect.stringContaining('removed by --set'),
      });
    },
  );

  test('a changed limit says in its source that the source was of another number', () => {
    const { limits } = scenarioWith({ 'limits.trim.normal': '300 %' });
    expect(limits.find(({ id }) => id === 'trim')!.source).toBe(
      'changed: normal from 80 % to 300 % by --set; before that assumed: leaves the loop a fifth of its range',
    );
  });
});

describe('what a verdict is measured by', () => {
  test.each([
    ['rated', '1 MW'],
    ['trays.capacitor_current_rms_rating', '1 kA'],
    ['feeders.F1.breaker_current', '2 kA'],
    ['feeders.short_circuit_power', '1 TVA'],
    ['feeders.F2.reactance_ratio', '0.1'],
    ['outage', 'yes'],
    ['warm_up', '1.6 s'],
    ['step', '200 us'],
  ])('%s changed: a condition', (path, value) => {
    const entries = basis(scenarioWith({ [path]: value }));
    expect(entries.find(({ what }) => what.startsWith(`${path} `))).toMatchObject({
      by: '--set',
      conditions: true,
    });
  });

  test('set to what stands there already: none', () => {
    const entries = basis(scenarioWith({ rated: '240 kW' }));
    expect(entries.find(({ what }) => what === 'rated 240 kW → 240 kW')).toMatchObject({ conditions: false });
  });
});

describe('the day', () => {
  const on = (judged_on: string, more: Partial<Scenario> = {}): readonly BasisEntry[] =>
    basis({ ...scenarioWith({}), ...more, judged_on, asked_on: '2030-03-01' });

  test.each(['2030-02-28', '2029-03-01', '1999-12-31'])('%s, before it was asked: a condition', (day) => {
    expect(conditionsOf(on(day))).toEqual([`judged on ${day}, a day before 2030-03-01, the date of the run`]);
  });

  test('a later day is told; so is that none was stated', () => {
    expect(conditionsOf(on('2031-01-01'))).toEqual([]);
    expect(basis(scenarioWith({}))[1]!.what).toBe('no day stated: no waiver counts as expired');
  });

  test('a past day that revives a waiver conditions twice', () => {
    const waiver = { limit: 'trim', reason: 'being retuned', by: 'reviewer', until: '2030-02-01' };
    const judged = (judged_on: string) =>
      judge(
        {
          ...scenarioOf({ limits: [row('trim', 'trim', 'upper', 0.1)], waivers: [waiver] }),
          judged_on,
          asked_on: '2030-03-01',
        },
        demandOf(),
        resultOf(),
      );
    expect(judged('2030-03-01').verdict).toBe('fail');
    expect(judged('2030-01-01').verdict).toBe('pass_with_conditions');
    expect(conditionsOf(judged('2030-01-01').basis)).toHaveLength(2);
  });
});

describe('an outage that is stated', () => {
  const stated = scenarioWith({ outage: 'yes' });
  const span = (kind: RecordedSpan['kind'], who: string): RecordedSpan => ({
    kind,
    who,
    what: '',
    from_s: 5,
    to_s: 30,
    open: true,
    count: 1,
    held_s: 25,
    amount: null,
    moved_to_s: 5,
  });

  test.each([
    ['nothing recorded', []],
    ['a tray at its limit', [span('at-limit', 'T4')]],
    ['a battery that carries', [span('carrying', 'B1')]],
    ['a sled that is off', [{ ...span('out', 'sled-9'), what: 'switched off' }]],
  ] as const)('with %s: the normal column applies all the same', (_, spans) => {
    expect(basis(stated, { spans }).map(({ what }) => what)).toContain(
      'an outage is stated and nothing was out: the normal column applies',
    );
  });

  test('with a signal that is late: assumed, and what needs the wider column is no pass', () => {
    const spans = [{ ...span('altered', 'signal smoothing'), what: 'signal-late' }];
    expect(basis(stated, { spans }).filter(({ kind }) => kind === 'assumed')).toMatchObject([
      { what: 'an outage is stated; signal smoothing altered, nothing out: the degraded column applies' },
    ]);
  });

  test.each([
    span('out', 'T4'),
    span('short', 'K1'),
    span('ac-lost', 'S1'),
    { ...span('altered', 'S3'), what: 'module-out' },
  ])('with $kind: told', (one) => {
    const entries = basis(stated, { spans: [one] });
    expect(entries.map(({ what }) => what)).toContain(
      `an outage is stated (${one.who} out): the degraded column applies`,
    );
  });
});

test('an outage from the start, a bar that is open, is one', () => {
  const entries = basis(scenarioWith({ outage: 'yes', 'bars.tie.closed': 'no' }));
  expect(entries.map(({ what }) => what)).toContain(
    'an outage is stated (tie out): the degraded column applies',
  );
});

describe('a load that is drawn or a fault that never comes', () => {
  test.each([
    ['load.scatter', "each sled's shift is random: one draw of it was run, seed 1"],
    ['load.jitter', 'the length of each period is random: one draw of it was run, seed 1'],
  ])('%s: one draw is a condition', (path, what) => {
    expect(conditionsOf(basis(scenarioWith({ [path]: '5 ms', start: 'settled' })))).toContain(what);
  });

  test('a scenario of requests at random: likewise', () => {
    const { scenario } = readShipped('scenarios/inference-bursts.yaml', [], { shippedLimits });
    expect(conditionsOf(basis(scenario))).toContain(
      `when requests arrive is random: one draw of it was run, seed ${scenario.seed}`,
    );
  });

  test.each(['tray-out T4', 'shelf-trip S3', 'bank-out K1'])(
    '%s after the end of the run: a condition',
    (what) => {
      const { scenario } = readShipped(file, [], {
        changes: [{ path: 'events.add', value: `${what} at 40 s` }],
        shippedLimits,
      });
      expect(conditionsOf(basis(scenario))).toEqual([`${what.split(' ')[0]} at 40 s never happened`]);
    },
  );
});

describe('cabinets beside this one', () => {
  test('swinging independently is a claim: a condition; together is the most they can do', () => {
    const cabinets = (coincidence: string) =>
      conditionsOf(
        basis(
          scenarioWith({}, [
            [file, 'duration: 30 s', `duration: 30 s\ncabinets_on_feeder: 20\ncoincidence: ${coincidence}`],
          ]),
        ),
      );
    expect(cabinets('independent')).toEqual(['20 cabinets swing independently']);
    expect(cabinets('together')).toEqual([]);
  });
});

describe('a replay', () => {
  /** Peaks for 0.4 s at 15 s. */
  const power_kW = (k: number): number => (k >= 148 && k < 152 ? 200 : 100 + (k % 2));
  const csvOf = (of: (k: number) => number): string =>
    Array.from({ length: 201 }, (_, k) => `${k / 10},${of(k)}`).join('\n');
  const reading = { at: 'rack', side: 'dc', copies: '1', coincidence: 'together' };

  function replayed(
    words: Readonly<Record<string, string>> = {},
    assumed: readonly string[] = [],
    csv = csvOf(power_kW),
  ): readonly BasisEntry[] {
    const own = Object.fromEntries(
      Object.entries({ ...reading, ...words }).map(([key, value]) => [`reading.${key}`, value]),
    );
    const files: ReadOptions['files'] = (path) =>
      path === 'load.csv'
        ? { text: '', sha256: 'f'.repeat(64) }
        : { text: readFileSync(path, 'utf8'), sha256: '0'.repeat(64) };
    const { scenario } = readShipped(file, [], {
      shippedLimits,
      changes: [{ path: 'duration', value: '10 s' }],
      recorded: { file: 'load.csv', from: '0 s', to: '20 s', ...own },
      assumed,
      ...({ files } as object),
    });
    if (scenario.load.kind !== 'recorded') throw new Error('no recording');
    const reader = new RecordedReader('load.csv', scenario.load.reading);
    reader.push(`t_s,power_kW\n${csv}\n`);
    return basis(scenario, { recorded: reader.finish('f'.repeat(64)) });
  }

  test('a stretch that misses the peak is a condition', () => {
    expect(conditionsOf(replayed())).toEqual(['plays 0 s to 10 s of 20 s recorded, which misses its peak']);
  });

  test('what its samples show of being wrong is a condition each', () => {
    const spiked = csvOf((k) => (k === 30 ? 65_535 : power_kW(k)));
    expect(conditionsOf(replayed({}, [], spiked))).toEqual([
      expect.stringMatching(/^power_kW: one sample, 65\.54 MW at 3 s, stands alone/),
    ]);
    const frozen = csvOf((k) => (k > 40 && k < 90 ? 100.61 : power_kW(k) + 0.31 * (k % 7)));
    const entries = replayed({}, [], frozen);
    expect(conditionsOf(entries)).toEqual([
      'plays 0 s to 10 s of 20 s recorded, which misses its peak',
      expect.stringMatching(/^power_kW stands at exactly 100\.6 kW for 4\.8 s/),
    ]);
    expect(verdictWith(entries)).toBe('pass_with_conditions');
  });

  test('a gap in the stretch is a condition, with the share that nobody recorded', () => {
    const lines = csvOf(power_kW).split('\n');
    const lost = [...lines.slice(0, 40), ...lines.slice(80)].join('\n');
    expect(replayed({}, [], lost)).toContainEqual(
      expect.objectContaining({
        what: 'a gap of the recording, 4.1 s in all, bridged by straight lines',
        reason: expect.stringMatching(/of the load that is played 41 % was never recorded/),
        conditions: true,
      }),
    );
  });

  test('what aligning did is said, channel by channel', () => {
    const [aligned] = replayed({ align: 'true' }).filter(({ what }) => what.startsWith('aligning'));
    expect(aligned).toMatchObject({ kind: 'chosen', what: 'aligning channels: channels stay as recorded' });
  });

  test.each<[string, Readonly<Record<string, string>>, readonly string[], string]>([
    ['the DC side, where nobody stated it', {}, ['reading.side'], 'recorded on the DC side'],
    ['an AC recording', { side: 'ac', accept_ac: 'true' }, [], 'an AC recording is used as the DC load'],
    ['copies spread in time', { coincidence: 'spread' }, [], 'copies spread in time'],
    [
      'fresh values',
      { fresh: 'true' },
      [],
      'repeated values are taken for the load itself, not a slow sensor',
    ],
    [
      'other smoothing',
      { smoothed: 'true' },
      [],
      'recorded behind other smoothing: the load itself swings more',
    ],
  ])('%s: a condition', (_, words, assumed, what) => {
    expect(conditionsOf(replayed(words, assumed))).toContain(what);
  });

  test('place and copies in step are told where nobody stated them', () => {
    const told = replayed({}, ['reading.at', 'reading.coincidence']).filter(({ kind }) => kind === 'assumed');
    expect(told.map(({ what }) => what)).toEqual(
      expect.arrayContaining(['recorded at the rack', 'copies in step']),
    );
    expect(told.some(({ conditions }) => conditions)).toBe(false);
  });
});

describe('a cabinet that collapses, with every limit waived', () => {
  test.each(['battery-empty', 'line-sag', 'mass-restart'])(
    '%s fails, and what took it down is the headline',
    (name) => {
      const { scenario } = readShipped(`scenarios/${name}.yaml`, [], {
        changes: [{ path: 'duration', value: '1 s' }],
        waivers: shippedRows.map(({ id }) => ({
          limit: id,
          reason: 'accepted',
          by: 'reviewer',
          until: null,
        })),
      });
      const { report } = run(scenario, null);
      expect(report.findings.some(({ verdict }) => verdict === 'fail')).toBe(false);
      expect(report.verdict).toBe('fail');
      expect(report.summary).toMatch(
        /^Fails: the cabinet collapsed: all sleds were off at 0\.\d+ s, after [SB]\d/,
      );
    },
  );
});

test('a warning of the files says what was found and what was expected, and not the one for the other', () => {
  const warned = { path: 'clause 7.9, metric', found: 'noise, not judged', expected: 'a quantity', mend: '' };
  const [one] = warnedBasis({ warnings: [{ severity: 'warning', ...warned }] });
  expect(one?.what).toBe('clause 7.9, metric: noise, not judged; expected: a quantity');
});
