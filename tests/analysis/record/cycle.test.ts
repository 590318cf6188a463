import { describe, expect, it } from 'vitest';
import { appliesIn } from '../../../src/analysis/record/applies.ts';
import { type Cycle, cycleOf, type Repeating } from '../../../src/analysis/record/cycle.ts';
import type { Result } from '../../../src/engine/result.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { resultOf, span } from '../fixture.ts';

const period_s = 1.6;
const moving = { peak_W: 50_000, low_W: 20_000, content: null };
const constant = {
  peak_W: 40_000,
  low_W: 40_000,
  content: { from_tick: 0, to_tick: 0, what: 'any moment', repeats: true },
};

function cycle(result: Result, more: Partial<Repeating> = {}): Cycle | string {
  const applies = appliesIn(result, 60_000, null, period_s);
  return cycleOf({ demand: moving, result, period_s, applies, ...more });
}

/** The made-up run with one tray's charge in buckets of 0.4 s, and AC power that may drift. */
function running(
  charge: (t: number) => number,
  ac: (t: number) => number = () => 40_000,
  spans: readonly RecordedSpan[] = [],
): Result {
  const base = resultOf({ spans }, ac);
  const low = Float32Array.from({ length: 72 }, (_, b) => charge(1.2 + 0.4 * b));
  const recording = {
    ...base.recording,
    bucketCount: 72,
    edges_s: Float64Array.from({ length: 73 }, (_, b) => 1.2 + 0.4 * b),
    min: base.recording.channels.map(() => low),
  };
  return { ...base, recording };
}

describe('the cycle of a load that repeats', () => {
  it('is every whole period of a window that nothing disturbs', () => {
    expect(cycle(running(() => 0.3))).toMatchObject({ words: '18 periods of 1.6 s', disturbed: false });
  });

  it('is none while the charge of a tray still moves by more than half a per cent of its window', () => {
    expect(cycle(running((t) => 0.3 - 0.0005 * (t / 30)))).toMatchObject({ disturbed: false });
    expect(cycle(running((t) => 0.3 - 0.02 * (t / 30)))).toMatch(
      /^not in its cycle: the charge of T1 moves by 0.9/,
    );
  });

  it('is none where a charge that hardly moves in the window goes on for long: it empties later', () => {
    expect(cycle(running((t) => 0.3 - 0.004 * (t / 30)))).toBe(
      'not in its cycle: if it goes on like this the charge of T1 moves by another 8.00 % of its window',
    );
    // A move of the same size that dies away comes to rest.
    expect(cycle(running((t) => 0.3 + 0.02 * Math.exp(-t / 5)))).toMatchObject({ disturbed: false });
  });

  it('is none while the mean AC power still moves by more than two thousandths', () => {
    expect(
      cycle(
        running(
          () => 0.3,
          (t) => 40_000 + 4 * t,
        ),
      ),
    ).toMatchObject({ disturbed: false });
    expect(
      cycle(
        running(
          () => 0.3,
          (t) => 40_000 + 40 * t,
        ),
      ),
    ).toMatch(/the mean AC power moves by 1.4/);
  });

  it('is none of a load that does not repeat', () => {
    expect(
      cycle(
        running(() => 0.3),
        { period_s: null },
      ),
    ).toBe('the load does not repeat');
  });

  it('takes two periods to show that it repeats, or a start that was searched for', () => {
    const over = (to_s: number, cycles_to_converge: number | null): Result => {
      const base = running(() => 0.3);
      return { ...base, window: { from_s: 1.2, to_s }, counters: { ...base.counters, cycles_to_converge } };
    };
    const long = { period_s: 2.4 };
    expect(cycle(over(3.6, null), long)).toBe('one period alone does not show that it repeats');
    expect(cycle(over(3.6, 5), long)).toMatchObject({ words: '1 period of 2.4 s' });
    expect(cycle(over(2.8, 5))).toBe('only 1.6 s of whole periods were run; 2 s are the least');
  });
});

describe('a constant load', () => {
  const over = (to_s: number, demand: Repeating['demand']): Cycle | string =>
    cycle({ ...running(() => 0.3), window: { from_s: 1.2, to_s } }, { period_s: null, demand });

  it('stands for a run without end from two seconds on', () => {
    expect(over(3.2, constant)).toMatchObject({ words: '2 s of a constant load' });
    expect(over(3.1, constant)).toBe('only 1.9 s of a constant load were run');
  });

  it('is not one that merely has not moved yet', () => {
    expect(over(30, { ...constant, content: null })).toBe('the load does not repeat');
    const step = { from_tick: 5, to_tick: 6, what: 'the step', repeats: false };
    expect(over(30, { ...constant, content: step })).toBe('the load does not repeat');
  });
});

describe('what a shelf bears only for a while', () => {
  it('is no cycle while it is being spent all through a round of the load', () => {
    const counting = (from_s: number, to_s: number | null): Cycle | string =>
      cycle(running(() => 0.3, undefined, [span('counting', 'S1', from_s, to_s)]));
    expect(counting(5, null)).toBe('not in its cycle: S1 still counts up what it bears only for a while');
    expect(counting(28.4, null)).toMatch(/^not in its cycle/);
    // It is back at nothing within each round.
    expect(counting(29, null)).toMatchObject({ disturbed: false });
    expect(counting(5, 29)).toMatchObject({ disturbed: false });
  });
});

describe('after a disturbance', () => {
  const steady = (...spans: readonly RecordedSpan[]): Cycle | string =>
    cycle(running(() => 0.3, undefined, spans));

  it('the cycle is what goes on: the last whole periods from 10 s after it', () => {
    const found = steady(span('out', 'T4', 5, null, 'taken out'));
    // 15 s are left, nine whole periods of them.
    expect(found).toMatchObject({ words: '9 periods of 1.6 s' });
    expect((found as Cycle).span.from_s).toBeCloseTo(30 - 9 * 1.6, 9);
    expect((found as Cycle).disturbed).toBe(true);
  });

  it.each([
    ['a disturbance less than 10 s before the end', span('out', 'T4', 21, null, 'taken out')],
    ['AC that is still lost', span('ac-lost', 'S1', 5, null, 'feeder')],
    ['batteries that still carry', span('carrying', 'B1', 5, null)],
    ['batteries that still charge', span('charging', 'B1', 5, null)],
    ['a shelf that still walks in', span('walk-in', 'S1', 5, null)],
  ])('there is none with %s', (_what, disturbance) => {
    expect(steady(disturbance)).toBe('the window does not end 10 s clear of every start, stop and event');
  });
});
