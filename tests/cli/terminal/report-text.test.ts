import { expect, test } from 'vitest';
import { judge } from '../../../src/analysis/judge/judge.ts';
import { bar } from '../../../src/cli/terminal/findings-table.ts';
import { type Paint, plain } from '../../../src/cli/terminal/paint.ts';
import { reportText, verdictLine } from '../../../src/cli/terminal/report-text.ts';
import { demandOf, entry, resultOf, row, rows, scenarioOf } from '../../analysis/fixture.ts';

const short = { next: 'see it: buswake view out/run', width: 100, paint: plain, verbose: false };
const verbose = { ...short, verbose: true };

const passing = judge(scenarioOf(), demandOf(), resultOf());

const log = [
  entry(24.9, 'load', 'load-edge', 'rises by 140 kW in 5 ms'),
  entry(25, 'B1', 'battery-start', 'bus below 48.5 V for 2 ms'),
];
const failing = judge(scenarioOf(), demandOf({ bandwidth_Hz: 25, period_ticks: null }), resultOf({ log }));

test('a passing run says verdict, basis, what binds, outcome and what to do next', () => {
  expect(reportText(passing, short)).toMatchInlineSnapshot(`
    "PASS  Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %.
    Made up: 28.8 s judged, from 1.2 s to 30 s
    basis   simple acceptance, not guarded; no day stated: no waiver counts as expired
            shortened: the first 1.2 s are not judged
            repeated: 18 periods of 1.6 s represent the load, repeated indefinitely

        limit           value  limit at  headroom          where  when
    ok  charge-high      80 %      95 %  ██········  16 %  T1     13 s
    ok  line          57.74 %      80 %  ███·······  28 %  FA
    ok  shelf         56.94 %     100 %  ████······  43 %  S1     13 s
    ok  line-short    56.29 %     100 %  ████······  44 %  FA     1.2 s
    ok  ripple-0.5-3      5 %      10 %  █████·····  50 %         1.2 s
    ok  tray-rms         50 %     100 %  █████·····  50 %  T1
    ok    18 more inside their limits, 60 % headroom and more; 1 cannot arise or are only reported
    outcome steady: nothing stopped, was limited or carried
    metrics bus 49.4 V to 50.2 V; AC 40 kW, ripple 5 %; shelf peak 500 A; trays 20 % to 80 %; battery
            starts 0
    engine  energy audit closes to 0; 600000 steps from 50 µs
    next    see it: buswake view out/run
    An estimate from averaged models, not a safety certification. All of it: -v."
  `);
});

test.each([80, 100, 120])('a passing run fits 25 lines of %d columns, whatever conditions it', (width) => {
  const conditions = Array.from(
    { length: 9 },
    (_, k) => `condition number ${k + 1}, which is long enough to need a line`,
  );
  const waivers = [{ limit: 'ramp-1s', reason: 'the utility agreed', by: 'reviewer', until: '2030-06-30' }];
  const limits = rows.map((row) => (row.id === 'ramp-1s' ? { ...row, normal: 0.001 } : row));
  const conditioned = judge(scenarioOf({ conditions, waivers, limits }), demandOf(), resultOf());
  for (const [report, verdict] of [
    [passing, 'pass'],
    [conditioned, 'pass_with_conditions'],
  ] as const) {
    expect(report.verdict).toBe(verdict);
    const text = reportText(report, { ...short, width }).split('\n');
    expect(text.length).toBeLessThanOrEqual(25);
    expect(Math.max(...text.map((line) => line.length))).toBeLessThanOrEqual(width);
  }
});

test('verbose prints everything: the whole basis with reasons, all metrics, the grid', () => {
  expect(reportText(passing, verbose)).toMatchInlineSnapshot(`
    "PASS  Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %.
    Made up: 28.8 s judged, from 1.2 s to 30 s
    basis   rule: simple acceptance, not guarded: the numerical doubt was not measured (--doubt measures
              it); a value within 1 ppm of its limit counts as at the limit, and passes; tolerances of
              parameters are not included (see the study spread)
            rule: no day stated: no waiver counts as expired
            shortened: the first 1.2 s are not judged: warm-up
            repeated: 18 periods of 1.6 s represent the load, repeated indefinitely: limits that require
              longer (0.1 Hz, ten minutes, two hours, heat) are judged on the repeated cycle

        limit               value  limit at  headroom           where   when
    ok  charge-high          80 %      95 %  ██········   16 %  T1      13 s
    ok  line              57.74 %      80 %  ███·······   28 %  FA
    ok  shelf             56.94 %     100 %  ████······   43 %  S1      13 s
    ok  line-short        56.29 %     100 %  ████······   44 %  FA      1.2 s
    ok  ripple-0.5-3          5 %      10 %  █████·····   50 %          1.2 s
    ok  tray-rms             50 %     100 %  █████·····   50 %  T1
    ok  share-edge           10 %      25 %  ██████····   60 %  S2      8 s
    ok  bank-rms             40 %     100 %  ██████····   60 %  K1
    ok  idle             0.3333 %       1 %  ███████···   67 %  B1      13 s
    ok  steady-low        49.59 V      48 V  ███████···   71 %  rack.1  12 s
    ok  trim                 20 %      80 %  ████████··   75 %  S1      12 s
    ok  short-low          49.4 V    46.5 V  ████████··   77 %  rack.1  12 s
    ok  share-high            1 %       5 %  ████████··   80 %  S1      9 s
    ok  ramp-100ms     3.877 kW/s   20 kW/s  ████████··   81 %          9.6 s
    ok  range                2 kW     12 kW  ████████··   83 %          2 s
    ok  balance           1.258 %      10 %  █████████·   87 %  A
    ok  floor              49.4 V      43 V  █████████·   88 %  rack.1  12 s
    ok  ramp-1s         869.5 W/s   20 kW/s  ██████████   96 %          16 s
    ok  pst               1.837 %     100 %  ██████████   98 %  FA
    ok  tone          1.602e-15 %       2 %  ██████████  100 %          15.6 s
    ok  steady-high        49.6 V      51 V  ██████████  187 %  A.S1    13 s
    ok  charge-low           20 %       5 %  ██████████  300 %  T1      12 s
    ok  bulk                 50 V      10 V  ██████████  400 %  S1      12 s
    ok  starts                  0         0
    -     cannot arise in this run (why: --json): share-low

    outcome steady: nothing stopped, was limited or carried.

    bus lowest                    49.4 V    tray charge, lowest             20 %
    bus highest                   50.2 V    tray charge, highest            80 %
    shelf current, peak            500 A    tray capacitor, RMS            150 A
    share error, steady              1 %    battery starts                     0
    share error, after edges        10 %    link bar current, peak         900 A
    AC power, mean                 40 kW    AC ripple 0.1–0.5 Hz   below 0.001 %
    AC ripple, peak to peak          5 %    AC ripple 0.5–3 Hz               5 %
    AC ramp over 100 ms       3.877 kW/s    AC ripple 3–20 Hz      below 0.001 %
    AC ramp over 1 s           869.5 W/s    AC ripple 20–300 Hz    below 0.001 %
    line current, all feeders       58 A
    grid    FA: 20 kW and 28.87 A a cabinet on 1 MVA; voltage lower by 0.919 %, moving by 0.04471 % at
              most and 0.01944 % steady; Pst 0.0184, an estimate from 28.8 s repeated; side bands of the
              line current 0.2928 %
    energy  1 kJ in = 890 J load + 100 J lost + 10 J stored; unaccounted 0 of throughput, 0 of losses
    engine  600000 steps from 50 µs, 30 states, 2 nodes, 0 retried

    next    see it: buswake view out/run
    An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.
    Stored energy and kiloampere fault currents need licensed practice and the local codes."
  `);
});

test('a failing run begins alike and says what led there', () => {
  expect(reportText(failing, short)).toMatchInlineSnapshot(`
    "FAIL  Title of starts is exceeded at B1, 1 against 0, and 1 more exceeds its limit; inconclusive:
      short-low, floor, tone and 2 more.
    Made up: 28.8 s judged, from 1.2 s to 30 s
    basis   simple acceptance, not guarded; no day stated: no waiver counts as expired
            shortened: the first 1.2 s are not judged

          limit          value  limit at  headroom             seen  where  when
    FAIL  starts             1         0                             B1     25 s
    FAIL  idle            35 %       1 %  !·········  -3400 %  83 %  B1     1.2 s
    ok    charge-high     80 %      95 %  ██········     16 %        T1     13 s
    ok    shelf        56.94 %     100 %  ████······     43 %        S1     13 s
    ok    line-short   56.29 %     100 %  ████······     44 %        FA     1.2 s
    ok    14 more inside their limits, 50 % headroom and more; 1 cannot arise or are only reported
    open  inconclusive: short-low, floor, tone, line and 1 more (why: -v)
    Before starts was exceeded:
      At 24.9 s load: rises by 140 kW in 5 ms.
      At 25 s B1: bus below 48.5 V for 2 ms.
    outcome steady: nothing stopped, was limited or carried
    metrics bus 49.4 V to 50.2 V; AC 40 kW, ripple 5 %; shelf peak 500 A; trays 20 % to 80 %; battery
            starts 1
    engine  energy audit closes to 0; 600000 steps from 50 µs
    next    see it: buswake view out/run
    An estimate from averaged models, not a safety certification. All of it: -v."
  `);
});

test('what was not judged is told with its share of the window and the worst value there', () => {
  const [first, ...others] = passing.findings;
  const worst_outside = { value: 0.97, time_s: 3.2, reason: 'within 10 s of a start' };
  const partly = { ...passing, findings: [{ ...first!, share_seen_ratio: 0.4, worst_outside }, ...others] };
  const text = reportText(partly, short).split('\n');
  expect(text.filter((line) => /charge-high/.test(line))).toMatchInlineSnapshot(`
    [
      "PASS  Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %.",
      "ok  charge-high      80 %      95 %  ██········  16 %  40 %  T1     13 s",
      "-     outside of what is judged: charge-high 97 % at 3.2 s (within 10 s of a start)",
    ]
  `);
});

test('a value and a limit that differ never print alike, and a headroom never prints as zero', () => {
  const printed = (value: number, limit: number): string => {
    const limits = [row('charge-high', 'tray-charge-high', 'upper', limit)];
    const result = resultOf();
    const extremes = result.extremes.map((e) => (e.channel === 'T1.charge_ratio' ? { ...e, max: value } : e));
    const report = judge(scenarioOf({ limits }), demandOf(), { ...result, extremes });
    return reportText(report, short)
      .split('\n')
      .find((line) => / {2}charge-high /.test(line))!;
  };
  expect(printed(0.95 * (1 + 5e-6), 0.95)).toMatchInlineSnapshot(
    `"FAIL  charge-high  95.0005 %      95 %  !·········  -0.0005 %  T1     13 s"`,
  );
  expect(printed(0.95 * (1 + 1e-4), 0.95)).toMatchInlineSnapshot(
    `"FAIL  charge-high  95.01 %      95 %  !·········  -0.01 %  T1     13 s"`,
  );
  expect(printed(0.95 * (1 + 1e-8), 0.95)).toMatchInlineSnapshot(
    `"ok  charge-high   95 %      95 %  ··········  at the limit  T1     13 s"`,
  );
  expect(printed(0.95 * (1 - 1e-5), 0.95)).toMatchInlineSnapshot(
    `"ok  charge-high  94.999 %      95 %  ··········  0.001 %  T1     13 s"`,
  );
});

test('the verdict line alone says verdict, binding limit and margin', () => {
  expect(verdictLine(passing, plain)).toBe(
    'PASS  Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %.',
  );
});

test('colour only adds to the words: without it the same text is left', () => {
  const marked: Paint = (style, text) => `<${style}>${text}</>`;
  const text = reportText(failing, { ...verbose, paint: marked });
  expect(text).toContain('<bad>FAIL</>');
  expect(text.replaceAll(/<\/?[a-z]*>/g, '')).toBe(reportText(failing, verbose));
});

test('headroom is drawn in tenths; a broken limit is marked, a count is blank', () => {
  expect([1.2, 1, 0.16, 0, -0.4, null].map(bar)).toEqual([
    '██████████',
    '██████████',
    '██········',
    '··········',
    '!·········',
    '          ',
  ]);
});

test('waivers and conditions stand on the screen: what was found, who, until when, and what is idle', () => {
  const waivers = [
    { limit: 'ramp-1s', reason: 'the utility agreed', by: 'reviewer', until: '2030-06-30' },
    { limit: 'trim', reason: 'being retuned', by: null, until: null },
  ];
  const limits = rows.map((row) => (row.id === 'ramp-1s' ? { ...row, normal: 0.001 } : row));
  const scenario = scenarioOf({ waivers, limits, conditions: ['coolant at 30 °C or below'] });
  const report = judge(scenario, demandOf(), resultOf());
  const text = reportText(report, short).split('\n');
  expect(report.verdict).toBe('pass_with_conditions');
  expect(text.slice(0, text.indexOf(''))).toMatchInlineSnapshot(`
    [
      "PASS WITH CONDITIONS  Title of charge-high comes closest at T1, 80 % against 95 %, headroom 16 %;",
      "  waived: ramp-1s; on condition: coolant at 30 °C or below.",
      "Made up: 28.8 s judged, from 1.2 s to 30 s",
      "basis   simple acceptance, not guarded; no day stated: no waiver counts as expired",
      "        condition, stated: coolant at 30 °C or below (made-up)",
      "        condition, waived: ramp-1s waived until 2030-06-30 (reviewer)",
      "        waived: waiver of trim, not needed in this run",
      "        shortened: the first 1.2 s are not judged",
      "        repeated: 18 periods of 1.6 s represent the load, repeated indefinitely",
    ]
  `);
  expect(text.filter((line) => line.startsWith('waived'))).toMatchInlineSnapshot(`
    [
      "waived  ramp-1s 869.5 W/s against 60 W/s; waived by reviewer until 2030-06-30: the utility agreed;",
    ]
  `);
});

test('the last paragraph of the findings is what could not be judged', () => {
  const text = reportText(failing, verbose).split('\n');
  const last = text.findLastIndex((line) => /^(ok|FAIL|open|-|waived) /.test(line));
  expect(text[last]).toMatch(/^open {2}inconclusive/);
});

test('a life is told with who judges it, for a run does not', () => {
  const life = {
    id: 'tray-life',
    verdict: 'not_applicable',
    unit: 's',
    value: 9e7,
    limit: 1.6e8,
    node: 'T1',
  } as const;
  const findings = [...passing.findings, { ...passing.findings[0]!, ...life }];
  const text = (report: typeof passing): string => reportText(report, verbose).replace(/\s+/g, ' ');
  expect(text({ ...passing, findings })).toMatch(
    /tray-life 2\.852 years against [\d.]+ years at T1; buswake duty judges tray-life over a calendar/,
  );
  expect(text(passing)).not.toContain('buswake duty');
});
