import { describe, expect, it } from 'vitest';
import { judge } from '../../../src/analysis/judge/judge.ts';
import type { Finding } from '../../../src/analysis/judge/report.ts';
import type { Result } from '../../../src/engine/result.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { demandOf, resultOf, row, scenarioOf, span, stayTable } from '../fixture.ts';

const low = row('low', 'bus-stay', 'lower', 0.96, { carry: 0.96, degraded: 0.93, stay_s: 1 });
const rms = row('rms', 'tray-capacitor-rms', 'upper', 0.4, { degraded: 0.6 });
const scenario = scenarioOf({ outage: true, limits: [low, rms] });

/** 47.5 V for 2 s from second `at_s`, between the normal 48 V and the degraded 46.5 V. */
function stayedLow(at_s: number, spans: readonly RecordedSpan[]): Result {
  const base = resultOf({ spans });
  const normal = stayTable(2, [
    [0, 48, 2, at_s, 1],
    [0, 48.5, 2, at_s, 1],
  ]);
  return { ...base, stays: { ...base.stays, normal } };
}

function find(result: Result, id = 'low'): Finding {
  return judge(scenario, demandOf({ period_ticks: null }), result).findings.find((f) => f.id === id)!;
}

describe('the degraded column', () => {
  const trayOut = [span('out', 'T4', 8, null, 'taken out')];

  it('judges what happens while something is out', () => {
    expect(find(stayedLow(9, trayOut))).toMatchObject({ verdict: 'pass', column: 'degraded', limit: 46.5 });
  });

  it('does not judge what happened before: that fails by the normal one', () => {
    expect(find(stayedLow(5, trayOut))).toMatchObject({ verdict: 'fail', column: 'normal', limit: 48 });
    expect(find(stayedLow(5, trayOut)).reason).toMatch(/nothing that bears on it was out then$/);
  });

  it('is not used where nothing was out, whatever is stated', () => {
    expect(find(stayedLow(9, []))).toMatchObject({ verdict: 'fail', column: 'normal' });
  });

  it('settles nothing where a parameter was altered and everything was in service', () => {
    const nudged = find(stayedLow(9, [span('altered', 'S1', 8, null, 'set-point-shift')]));
    expect(nudged).toMatchObject({ verdict: 'inconclusive', headroom_ratio: null });
    expect(nudged.reason).toMatch(/^keeps the degraded column only; that S1 counts as an outage is stated/);
  });

  it('judges a value of the whole window where something was out for half of it or more', () => {
    const since = (from_s: number) =>
      find(resultOf({ spans: [span('out', 'T4', from_s, null, 'taken out')] }), 'rms');
    expect(since(10)).toMatchObject({ verdict: 'pass', column: 'degraded', limit: 0.6 });
    expect(since(29)).toMatchObject({ verdict: 'fail', column: 'normal', limit: 0.4 });
  });
});

describe('the carry column', () => {
  /** 47.5 V for 2 s while batteries carry. */
  const carried = (spans: readonly RecordedSpan[]): Finding => {
    const base = resultOf({ spans: [...spans, span('carrying', 'B1', 8, 14)] });
    const carry = stayTable(2, [
      [0, 48, 2, 9, 1],
      [0, 48.5, 2, 9, 1],
    ]);
    const judged = judge(scenario, demandOf({ period_ticks: null }), {
      ...base,
      stays: { ...base.stays, carry, carry_s: 6 },
    });
    return judged.findings.find(({ id, column }) => id === 'low' && column === 'carry')!;
  };

  it('is widened by an outage that was one, and not by one that is only stated', () => {
    expect(carried([span('ac-lost', 'S1', 7, 13, 'feeder')])).toMatchObject({ verdict: 'pass', limit: 46.5 });
    expect(carried([])).toMatchObject({ verdict: 'fail', limit: 48 });
    const nudged = carried([span('altered', 'S1', 8, null, 'set-point-shift')]);
    expect(nudged.verdict).toBe('inconclusive');
  });
});
