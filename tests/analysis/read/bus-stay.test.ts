import { describe, expect, it } from 'vitest';
import { judge } from '../../../src/analysis/judge/judge.ts';
import { readBusStay } from '../../../src/analysis/read/bus-stay.ts';
import { caseOf } from '../../../src/analysis/record/case.ts';
import type { Result } from '../../../src/engine/result.ts';
import type { Limit } from '../../../src/limits/limit.ts';
import { demandOf, levels_V, resultOf, row, scenarioOf, span, stayTable } from '../fixture.ts';

const once = demandOf({ period_ticks: null });
const limit = (stay_s: number, column: Limit['column'] = 'normal'): Limit => ({
  ...row('low', 'bus-stay', 'lower', 48, { unit: 'V' }),
  column,
  value: 48,
  stay_s,
  reportOnly: false,
  removed: null,
});

/** The first node lies below 48 V for `stay_s`; `cut`: the stay that the window ends in, and the one it begins in. */
function below(stay_s: number, open: boolean, first_s = 0, window = { from_s: 1.2, to_s: 30 }): Result {
  const base = resultOf({ window });
  const normal = stayTable(2, [
    [0, 48, stay_s, 29, 1],
    [0, 48.5, stay_s, 29, 1],
  ]);
  if (open) normal.belowLast_s[levels_V.indexOf(48)] = stay_s;
  normal.belowFirst_s[levels_V.indexOf(48)] = first_s;
  return { ...base, stays: { ...base.stays, normal } };
}

const read = (result: Result, stay_s: number, demand = once) =>
  readBusStay(caseOf(scenarioOf(), demand, result), limit(stay_s));

describe('a stay that still runs when the window ends', () => {
  it('settles nothing while it is as short as allowed', () => {
    expect(read(below(0.5, false), 1)).toMatchObject({ passes: true });
    expect(read(below(0.5, false), 1).unsettled).toBeUndefined();
    expect(read(below(0.5, true), 1).unsettled).toMatchObject({ truth: 'worse' });
    const limits = [row('low', 'bus-stay', 'lower', 0.96, { stay_s: 1 })];
    const judged = judge(scenarioOf({ limits }), once, below(0.5, true));
    expect(judged.findings[0]).toMatchObject({ verdict: 'inconclusive', headroom_ratio: null });
  });

  it('fails once it is longer: more could only be worse', () => {
    expect(read(below(1.5, true), 1)).toMatchObject({ passes: false, duration_s: 1.5 });
    expect(read(below(1.5, true), 1).unsettled).toBeUndefined();
  });

  it('in a cycle goes on into the next period, which the window has shown', () => {
    expect(read(below(0.5, true), 1, demandOf()).unsettled).toBeUndefined();
  });

  it('in a cycle never ends where it is as long as a period', () => {
    const reading = read(below(1.6, true), 600, demandOf());
    expect(reading).toMatchObject({ passes: false, duration_s: null });
    expect(reading.reason).toMatch(/for as long as the load goes on/);
  });

  it('settles nothing where nobody saw it begin', () => {
    const begun = below(0.5, false, 0.5);
    expect(read(begun, 1).unsettled).toMatchObject({
      because: expect.stringMatching(/when the window began/),
    });
    expect(read(begun, 1, demandOf()).unsettled).toBeUndefined();
  });
});

it('a row without a level is reported, and nothing is counted', () => {
  const limits = [row('low', 'bus-stay', 'lower', null, { carry: null, degraded: null, stay_s: 1 })];
  const judged = judge(scenarioOf({ limits }), once, resultOf());
  expect(judged.findings[0]).toMatchObject({ verdict: 'not_applicable', value: null, limit: null });
});

describe('a stay longer than what was watched', () => {
  const short = (): Result => resultOf({ window: { from_s: 1.2, to_s: 2 } });

  it('is not shown by a short window', () => {
    expect(read(short(), 1)).toMatchObject({ value: null });
    expect(read(short(), 1).cannotArise).toBeUndefined();
    expect(read(short(), 0.5).value).not.toBeNull();
  });

  const carried = (to_s: number | null) => {
    const base = resultOf({ spans: [span('carrying', 'B1', 29.5, to_s)] });
    const result = { ...base, stays: { ...base.stays, carry: stayTable(2), carry_s: 0.4 } };
    return readBusStay(caseOf(scenarioOf(), once, result), limit(1, 'carry'));
  };

  it('cannot arise while batteries carry for less than that, and may where they still carry at the end', () => {
    expect(carried(29.9)).toMatchObject({ value: null, cannotArise: true });
    expect(carried(null)).toMatchObject({ value: null });
    expect(carried(null).cannotArise).toBeUndefined();
  });
});
