/** Which steps a run has, what is looked at after each, and how long limits held: on a record made by hand. */
import { describe, expect, test } from 'vitest';
import type { Case } from '../../../src/analysis/record/case.ts';
import { answersOf, stepsOf, watchedOf } from '../../../src/analysis/responses/responses.ts';
import { responsesOf } from '../../../src/analysis/responses/summary.ts';
import { responseRows, responsesHeading } from '../../../src/analysis/words/response-words.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { responseTables } from '../../../src/export/response-tables.ts';
import { entry, scenarioOf, span } from '../fixture.ts';

const bucket_s = 0.002;
const count = 2000;
const edges_s = Float64Array.from({ length: count + 1 }, (_, k) => k * bucket_s);
const settles = (t: number, tau_s: number): number => (t < 0 ? 0 : 1 - Math.exp(-t / tau_s));

/** Load edge at 0.994 s, which the log tells as 1 s; S2 is tripped at 2.5 s. The run ends at 4 s. */
const quantities: Readonly<Record<string, (t: number) => number>> = {
  'total.load_W': (t) => 30_000 + 20_000 * settles(t - 0.994, 1e-6),
  'sled-1.voltage_V': (t) => 50 - 0.5 * settles(t - 0.994, 0.02),
  'sled-2.voltage_V': (t) => 50 - 0.6 * settles(t - 0.994, 0.02),
  'sled-3.voltage_V': () => 0,
  'S1.current_A': (t) => 300 + 200 * settles(t - 0.994, 0.05) + 100 * settles(t - 2.5, 10),
  'S2.current_A': (t) => (t < 2.5 ? 300 + 200 * settles(t - 0.994, 0.05) : 0),
  'T1.power_W': (t) => (t < 0.994 ? 0 : 5000 * Math.exp(-(t - 0.994) / 0.1)),
  'B1.current_A': () => 3,
};

const names = Object.keys(quantities);
const at = (pick: (...v: number[]) => number) =>
  names.map((name) =>
    Float32Array.from({ length: count }, (_, k) => {
      const y = quantities[name]!;
      return pick(y(edges_s[k]! + 1e-9), y(edges_s[k]! + bucket_s / 2), y(edges_s[k + 1]! - 1e-9));
    }),
  );

function caseWith(spans: readonly RecordedSpan[] = []): Pick<Case, 'scenario' | 'result' | 'story'> {
  const sleds = ['sled-1', 'sled-2', 'sled-3'].map((id) => ({ id }));
  const trays = [{ id: 'T1', values: { power_limit_W: 20_000 } }];
  const log = [
    entry(1, 'load', 'load-edge', ''),
    entry(2.5, 'S2', 'event', ''),
    entry(2.51, 'S2', 'dc-stop', ''),
    entry(3, 'S2', 'trim-clamp', ''),
  ];
  const recording = {
    channels: names.map((id) => ({
      id,
      kind: id.startsWith('sled') ? 'node-voltage' : 'total',
      owner: id.split('.')[0]!,
    })),
    edges_s,
    bucketCount: count,
    min: at(Math.min),
    max: at(Math.max),
    mean: at((_, middle) => middle!),
    closeUps: [],
  };
  const extremes = names.map((channel) => ({
    channel,
    min: Math.min(...edges_s.map(quantities[channel]!)),
  }));
  const window = { from_s: 0, to_s: 4 };
  const result = { window, log, spans, recording, extremes } as unknown as Case['result'];
  return { scenario: scenarioOf({ sleds, trays } as never), result, story: log };
}

const shorted = span('short', 'sled-3', 0, 4);

describe('steps', () => {
  test('an edge begins where the load moves, not where its means tell it; what follows within 20 ms is one step', () => {
    const steps = stepsOf(caseWith());
    expect(steps).toHaveLength(2);
    expect(steps[0]!.at_s).toBeCloseTo(0.994, 9);
    expect(steps.map(({ before_s }) => before_s)).toEqual([0, steps[0]!.at_s]);
    expect(steps.map(({ until_s }) => until_s)).toEqual([2.5, 4]);
  });
});

describe('what is looked at', () => {
  test('the bus at the lowest sled that was served throughout', () => {
    expect(watchedOf(caseWith([shorted]))[0]).toMatchObject({ kind: 'bus', unit: 'sled-2' });
    expect(watchedOf(caseWith())[0]).toMatchObject({ unit: 'sled-3' });
  });

  test('what moves by less than 1 % of its rating is still', () => {
    const answers = answersOf(caseWith([shorted]));
    const of = (unit: string) => answers.filter((one) => one.unit === unit).map(({ response }) => response);
    expect(of('B1')).toEqual([null, null]);
    expect(of('T1')[1]).toBeNull();
    expect(of('sled-2')[0]!.end).toBeCloseTo(49.4, 5);
  });
});

describe('a row a unit', () => {
  const limits = [
    span('at-limit', 'S1', 1, 2, 'current'),
    { ...span('at-limit', 'S1', 3, 4, 'slew'), held_s: 0.25 },
    span('at-limit', 'S2', 1, 2, 'current'),
    span('out', 'S1', 1, 2, 'taken out'),
  ];
  const found = responsesOf(caseWith([shorted, ...limits]));
  const of = (unit: string) => found.units.find((one) => one.unit === unit)!;

  test('steps, and times to a bucket', () => {
    expect(found.steps_count).toBe(2);
    expect(found.resolution_s!).toBeCloseTo(bucket_s, 9);
  });

  test('the worst of its steps: a lag within 5 % after 3 time constants, then a ramp that has not settled', () => {
    expect(of('sled-2').settling_5!.time_s!).toBeCloseTo(0.02 * Math.log(20), 2);
    expect(of('sled-2').settling_2!.time_s!).toBeCloseTo(0.02 * Math.log(50), 2);
    expect(of('S1')).toMatchObject({ moved_count: 2, settling_5: { time_s: null, step_s: 2.5 } });
    expect(of('T1').overshoot).toMatchObject({ ratio: null });
    expect(of('T1').overshoot!.value).toBeCloseTo(5000, -1);
    expect(of('B1')).toMatchObject({ moved_count: 0, overshoot: null, undershoot: null, settling_2: null });
  });

  test('shares of the window at each limit, the time held where it chattered', () => {
    expect(of('S1').at_limit).toEqual([
      { limit: 'current', share_ratio: 0.25 },
      { limit: 'slew', share_ratio: 0.0625 },
    ]);
    expect(of('T1').at_limit).toEqual([]);
  });

  test('in words: what is still is counted, what comes back has no ratio', () => {
    expect(responsesHeading(found)).toBe(
      'Responses to 2 edges and events, the worst of them; times to 2 ms; limits: of the judged window',
    );
    const rows = responseRows(found);
    expect(rows.map(([name]) => name)).toEqual(['bus at sled-2', 'S1', 'S2', 'T1', '1 battery shelf: still']);
    expect(rows[3]![1]).toMatch(/^5 kW \(comes back\)|^4\.9\d kW \(comes back\)/);
    expect(rows[1]!.slice(3)).toEqual(['not settled', 'not settled', 'current 25 %, slew 6.3 %']);
  });

  test('units in a row that read alike stand in one', () => {
    const [bus, one, ...rest] = found.units;
    const two = { ...one!, unit: 'S1b' };
    expect(responseRows({ ...found, units: [bus!, one!, two, ...rest] })[1]![0]).toBe('S1 to S1b');
  });
});

test('as a table: a row a step and quantity, of the channels that are wanted', () => {
  const { scenario, result } = caseWith([shorted]);
  const [table] = responseTables(scenario, result, new Set(['S1.current_A', 'B1.current_A']));
  expect(table!.rows).toBe(4);
  const cells = table!.block(0, 4);
  const column = (name: string) => [...cells[table!.columns.findIndex((one) => one.name === name)]!];
  expect(column('channel')).toEqual(['S1.current_A', 'B1.current_A', 'S1.current_A', 'B1.current_A']);
  expect(column('to_s')).toEqual([2.5, 2.5, 4, 4]);
  expect(Number(column('end')[0])).toBeCloseTo(500, 2);
  expect(column('end')[1]).toBeNull();
  expect(column('settling_5_s')[2]).toBeNull();
  expect(responseTables(scenario, result, new Set(['T4.power_W']))).toEqual([]);
});
