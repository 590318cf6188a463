import { expect, test } from 'vitest';
import { judge } from '../../src/analysis/judge.ts';
import { bar } from '../../src/cli/findings-text.ts';
import { type Paint, plain } from '../../src/cli/paint.ts';
import { reportText, verdictLine } from '../../src/cli/report-text.ts';
import { demandOf, entry, resultOf, rows, scenarioOf } from '../analysis/fixture.ts';

const passing = judge(scenarioOf(), demandOf(), resultOf());

const log = [
  entry(24.9, 'load', 'load-edge', 'rises by 140 kW in 5 ms'),
  entry(25, 'B1', 'battery-start', 'bus below 48.5 V for 2 ms'),
];
const failing = judge(scenarioOf(), demandOf({ bandwidth_Hz: 25, period_ticks: null }), resultOf({ log }));

test('a passing run fits one screen and ends with what to do next', () => {
  const text = reportText(passing, 'see it: buswake view out/run', 100, plain);
  expect(text).toMatchInlineSnapshot(`
    "PASS  Title of charge-high comes closest at T1, 80 % against 95 %, 16 % of the allowed deviation left.
    Made up: 28.8 s judged, from 1.2 s to 30 s

        limit            value  limit at  headroom          where   when
    ok  charge-high       80 %      95 %  ██········  16 %  T1      13 s
    ok  line           57.74 %      80 %  ███·······  28 %  FA
    ok  shelf          56.94 %     100 %  ████······  43 %  S1      13 s
    ok  line-short     56.29 %     100 %  ████······  44 %  FA      1.2 s
    ok  ripple-0.5-3       5 %      10 %  █████·····  50 %          1.2 s
    ok  tray-rms          50 %     100 %  █████·····  50 %  T1
    ok  share-edge        10 %      25 %  ██████····  60 %  S2      8 s
    ok  bank-rms          40 %     100 %  ██████····  60 %  K1
    ok  idle          0.3333 %       1 %  ███████···  67 %  B1      13 s
    ok  steady-low     49.59 V      48 V  ███████···  71 %  rack.1  12 s
    ok    13 more inside their limits, 75 % headroom and more: trim, short-low, share-high, ramp-100ms,
          range, balance, floor, ramp-1s and 5 more (--json)
    -     does not arise in this run (why: --json): pst, share-low

    bus lowest                   49.4 V    tray charge, lowest             20 %
    bus highest                  50.2 V    tray charge, highest            80 %
    shelf current, peak           500 A    tray capacitor, RMS            150 A
    share error, steady             1 %    battery starts                     0
    share error, after edges       10 %    link bar current, peak         900 A
    AC power, mean                40 kW    AC ripple 0.1–0.5 Hz   below 0.001 %
    AC ripple, peak to peak         5 %    AC ripple 0.5–3 Hz               5 %
    AC ramp over 100 ms      3.877 kW/s    AC ripple 3–20 Hz      below 0.001 %
    AC ramp over 1 s          869.5 W/s    AC ripple 20–300 Hz    below 0.001 %
    line current, RMS              58 A
    grid    FA: 20 kW and 28.87 A a cabinet on 1 MVA; voltage lower by 0.8944 %, moving by 0.04471 % at
              most and 0.01944 % steady; Pst 0.0184, an estimate from 28.8 s repeated; side bands of the
              line current 0.2928 %
    energy  1 kJ in = 890 J load + 100 J lost + 10 J stored; open 0 of throughput, 0 of losses
    engine  600000 steps from 50 µs, 30 states, 2 nodes, 0 retried

    next    see it: buswake view out/run
    An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.
    Stored energy and kiloampere fault currents need licensed practice and the local codes."
  `);
  expect(text.split('\n').length).toBeLessThanOrEqual(40);
});

test('a failing run says what led there', () => {
  expect(reportText(failing, 'see it: buswake view out/run', 100, plain)).toMatchInlineSnapshot(`
    "FAIL  Title of starts is broken at B1, 1 against 0; 3 limits inconclusive.
    Made up: 28.8 s judged, from 1.2 s to 30 s

          limit           value  limit at  headroom          where   when
    FAIL  starts              1         0                    B1      25 s
    ok    charge-high      80 %      95 %  ██········  16 %  T1      13 s
    ok    line          57.74 %      80 %  ███·······  28 %  FA
    ok    shelf         56.94 %     100 %  ████······  43 %  S1      13 s
    ok    line-short    56.29 %     100 %  ████······  44 %  FA      1.2 s
    ok    ripple-0.5-3      5 %      10 %  █████·····  50 %          29.2 s
    ok    tray-rms         50 %     100 %  █████·····  50 %  T1
    ok    share-edge       10 %      25 %  ██████····  60 %  S2      8 s
    ok    bank-rms         40 %     100 %  ██████····  60 %  K1
    ok    steady-low    49.59 V      48 V  ███████···  71 %  rack.1  12 s
    ok    trim             20 %      80 %  ████████··  75 %  S1      12 s
    ok    8 more inside their limits, 80 % headroom and more: share-high, ramp-100ms, range, balance,
          ramp-1s, charge-low, bulk, steady-high
    -     does not arise in this run (why: --json): pst, share-low, idle
    open  inconclusive: short-low (needs content up to 220 Hz; the recording shows up to 25 Hz); floor
          (needs content up to 10000 Hz; the recording shows up to 25 Hz); tone (needs content up to 100
          Hz; the recording shows up to 25 Hz)

    Before starts broke:
      At 24.9 s load: rises by 140 kW in 5 ms.
      At 25 s B1: bus below 48.5 V for 2 ms.

    bus lowest                   49.4 V    tray charge, lowest             20 %
    bus highest                  50.2 V    tray charge, highest            80 %
    shelf current, peak           500 A    tray capacitor, RMS            150 A
    share error, steady             1 %    battery starts                     1
    share error, after edges       10 %    link bar current, peak         900 A
    AC power, mean                40 kW    AC ripple 0.1–0.5 Hz   below 0.001 %
    AC ripple, peak to peak         5 %    AC ripple 0.5–3 Hz               5 %
    AC ramp over 100 ms      3.877 kW/s    AC ripple 3–20 Hz      below 0.001 %
    AC ramp over 1 s          869.5 W/s    AC ripple 20–300 Hz    below 0.001 %
    line current, RMS              58 A
    grid    FA: 20 kW and 28.87 A a cabinet on 1 MVA; voltage lower by 0.8944 %, moving by 0.04471 % at
              most and 0.01944 % steady; flicker not known (no ten minutes, no cycle); side bands of the
              line current 0.2928 %
    energy  1 kJ in = 890 J load + 100 J lost + 10 J stored; open 0 of throughput, 0 of losses
    engine  600000 steps from 50 µs, 30 states, 2 nodes, 0 retried

    next    see it: buswake view out/run
    An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.
    Stored energy and kiloampere fault currents need licensed practice and the local codes."
  `);
});

test('the verdict line alone says verdict, binding limit and margin', () => {
  expect(verdictLine(passing, plain)).toBe(
    'PASS  Title of charge-high comes closest at T1, 80 % against 95 %, 16 % of the allowed deviation left.',
  );
});

test('colour only adds to the words: without it the same text is left', () => {
  const marked: Paint = (style, text) => `<${style}>${text}</>`;
  const text = reportText(failing, 'next', 100, marked);
  expect(text).toContain('<bad>FAIL</>');
  expect(text.replaceAll(/<\/?[a-z]*>/g, '')).toBe(reportText(failing, 'next', 100, plain));
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
  const text = reportText(report, 'next', 100, plain).split('\n');
  expect(report.verdict).toBe('pass_with_conditions');
  expect(text.filter((line) => /^(PASS|waived|sign)/.test(line))).toMatchInlineSnapshot(`
    [
      "PASS WITH CONDITIONS  Title of charge-high comes closest at T1, 80 % against 95 %, 16 % of the allowed deviation left; 1 limit waived.",
      "waived  ramp-1s 869.5 W/s against 60 W/s; waived by reviewer until 2030-06-30: the utility agreed;",
      "sign    on condition: coolant at 30 °C or below",
      "sign    idle waiver of trim, waived: being retuned",
    ]
  `);
});

test('the last paragraph of the findings is what could not be judged', () => {
  const text = reportText(failing, 'next', 100, plain).split('\n');
  const last = text.findLastIndex((line) => /^(ok|FAIL|open|-|waived) /.test(line));
  expect(text[last]).toMatch(/^open {2}inconclusive/);
});
