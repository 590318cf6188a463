import { expect, it } from 'vitest';
import type { RecordedSpan } from '../../src/events/spans.ts';
import { busLimits } from '../../web/panels/bus-limits.ts';
import { syntheticRun } from '../fixtures/run.ts';

const bundle = syntheticRun(10);
const carrying: RecordedSpan = {
  kind: 'carrying',
  who: 'B1',
  what: '',
  from_s: 2,
  to_s: 6,
  open: false,
  count: 1,
  held_s: 4,
  amount: null,
  moved_to_s: 2,
};
const [steady] = bundle.report.findings;

it('busLimits() draws each limit over the time in which its column holds', () => {
  const report = {
    ...bundle.report,
    findings: [
      { ...steady!, limit: 48 },
      { ...steady!, limit: 47.5, column: 'carry' as const },
    ],
  };
  const lines = busLimits({ ...bundle, report, result: { ...bundle.result, spans: [carrying] } });
  expect(
    lines.map(({ words, spans }) => [words, spans.map(({ from_s, to_s }) => `${from_s} to ${to_s}`)]),
  ).toEqual([
    ['below 48.00 V: 1 s at most', ['0 to 2', '6 to 10']],
    ['below 47.50 V: carrying 1 s at most', ['2 to 6']],
  ]);
});

it('busLimits() makes one line of a limit that both columns share, and none of one that does not apply', () => {
  const report = {
    ...bundle.report,
    findings: [
      { ...steady!, limit: 48 },
      { ...steady!, limit: 48, column: 'carry' as const },
      { ...steady!, id: 'bus-20ms-low', limit: 47.5, verdict: 'not_applicable' as const },
    ],
  };
  const lines = busLimits({ ...bundle, report, result: { ...bundle.result, spans: [carrying] } });
  expect(lines.map(({ words }) => words)).toEqual(['below 48.00 V: 1 s at most']);
  expect(lines[0]!.spans).toEqual([{ from_s: 0, to_s: 10 }]);
});

it('busLimits() makes one line of limits at one voltage, with the stay of each', () => {
  const report = {
    ...bundle.report,
    findings: [
      { ...steady!, id: 'bus-20ms-low', limit: 47.5 },
      { ...steady!, limit: 47.5, column: 'carry' as const },
    ],
  };
  const lines = busLimits({ ...bundle, report, result: { ...bundle.result, spans: [carrying] } });
  expect(lines.map(({ words, spans, steady: keeps }) => [words, spans.length, keeps])).toEqual([
    ['below 47.50 V: 20 ms at most, carrying 1 s at most', 1, true],
  ]);
});

it('busLimits() says the shortest of two stays beyond one voltage, which leaves no room for the other', () => {
  const findings = [
    { ...steady!, id: 'bus-20ms-low', limit: 43 },
    { ...steady!, id: 'bus-2ms-low', limit: 43 },
  ];
  const lines = busLimits({ ...bundle, report: { ...bundle.report, findings } });
  expect(lines.map(({ words }) => words)).toEqual(['below 43.00 V: 2 ms at most']);
});

it('busLimits() draws no line of a column that never held', () => {
  const report = { ...bundle.report, findings: [{ ...steady!, column: 'carry' as const }] };
  expect(busLimits({ ...bundle, report })).toEqual([]);
});
