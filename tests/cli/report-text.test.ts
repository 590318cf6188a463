import { expect, test } from 'vitest';
import { judge } from '../../src/analysis/judge.ts';
import { bar } from '../../src/cli/findings-text.ts';
import { type Paint, plain } from '../../src/cli/paint.ts';
import { reportText, verdictLine } from '../../src/cli/report-text.ts';
import { demandOf, entry, resultOf, scenarioOf } from '../analysis/fixture.ts';

const passing = judge(scenarioOf(), demandOf(), resultOf());

const log = [
  entry(24.9, 'load', 'load-edge', 'rises by 140 kW in 5 ms'),
  entry(25, 'B1', 'battery-start', 'bus below 48.5 V for 2 ms'),
];
const failing = judge(scenarioOf(), demandOf({ bandwidth_Hz: 25, period_ticks: null }), resultOf({ log }));

test('a passing run fits one screen and ends with what to do next', () => {
  const text = reportText(passing, 'see it: buswake view out/run', 100, plain);
  expect(text).toMatchInlineSnapshot(`
    "PASS  charge-high binds at T1 with 80 % against 95 %, 16 % of the allowed deviation left.
    Made up: 28.8 s judged, from 1.2 s to 30 s

        limit            value  limit at  headroom          where   when
    ok  charge-high       80 %      95 %  ██········  16 %  T1      13 s
    ok  line           57.74 %      80 %  ███·······  28 %  FA
    ok  shelf          56.94 %     100 %  ████······  43 %  S1      13 s
    ok  line-short     56.29 %     100 %  ████······  44 %  FA      1.2 s
    ok  ripple-0.5-3       5 %      10 %  █████·····  50 %
    ok  tray-rms          50 %     100 %  █████·····  50 %  T1
    ok  share-edge        10 %      25 %  ██████····  60 %  S2      8 s
    ok  bank-rms          40 %     100 %  ██████····  60 %  K1
    ok  idle          0.3333 %       1 %  ███████···  67 %  B1      13 s
    ok  steady-low     49.59 V      48 V  ███████···  71 %  rack.1  12 s
    ok  trim              20 %      80 %  ████████··  75 %  S1      12 s
    ok  short-low       49.4 V    46.5 V  ████████··  77 %  rack.1  12 s
    ok    11 more inside their limits, 80 % headroom and more: share-high, ramp-100ms, range, balance,
          floor, ramp-1s, tone, charge-low, bulk, steady-high, starts
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
    "FAIL  starts is broken at B1 with 1 against 0; 3 limits not assessable.
    Made up: 28.8 s judged, from 1.2 s to 30 s

          limit              value  limit at  headroom          where   when
    FAIL  starts                 1         0                    B1      25 s
    ok    charge-high         80 %      95 %  ██········  16 %  T1      13 s
    ok    line             57.74 %      80 %  ███·······  28 %  FA
    ok    shelf            56.94 %     100 %  ████······  43 %  S1      13 s
    ok    line-short       56.29 %     100 %  ████······  44 %  FA      1.2 s
    ok    ripple-0.5-3         5 %      10 %  █████·····  50 %
    ok    tray-rms            50 %     100 %  █████·····  50 %  T1
    ok    share-edge          10 %      25 %  ██████····  60 %  S2      8 s
    ok    bank-rms            40 %     100 %  ██████····  60 %  K1
    ok    steady-low       49.59 V      48 V  ███████···  71 %  rack.1  12 s
    ok    trim                20 %      80 %  ████████··  75 %  S1      12 s
    ok    share-high           1 %       5 %  ████████··  80 %  S1      9 s
    ok    ramp-100ms    3.877 kW/s   20 kW/s  ████████··  81 %          10.4 s
    ok    6 more inside their limits, 83 % headroom and more: range, balance, ramp-1s, charge-low, bulk,
          steady-high
    open  not assessable: short-low (needs content up to 220 Hz; the recording shows up to 25 Hz); floor
          (needs content up to 10000 Hz; the recording shows up to 25 Hz); tone (needs content up to 100
          Hz; the recording shows up to 25 Hz)
    -     does not arise in this run (why: --json): pst, share-low, idle

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
    energy  1 kJ in = 890 J load + 100 J lost + 10 J stored; open 0 of throughput, 0 of losses
    engine  600000 steps from 50 µs, 30 states, 2 nodes, 0 retried

    next    see it: buswake view out/run
    An estimate from averaged models (no switching, no arcs, no protection coordination); not a safety certification.
    Stored energy and kiloampere fault currents need licensed practice and the local codes."
  `);
});

test('the verdict line alone says verdict, binding limit and margin', () => {
  expect(verdictLine(passing, plain)).toBe(
    'PASS  charge-high binds at T1 with 80 % against 95 %, 16 % of the allowed deviation left.',
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
