import { describe, expect, it } from 'vitest';
import { appliesIn } from '../../../src/analysis/record/applies.ts';
import type { RecordedSpan } from '../../../src/events/spans.ts';
import { span } from '../fixture.ts';
import { loadMeans, pulses } from '../load-means.ts';

const window = { from_s: 0, to_s: 40 };
const applies = (...spans: readonly RecordedSpan[]) => appliesIn({ spans, window }, 240, null, null);

describe('bands and range', () => {
  it('wait for the end of walk-in and 10 s more', () => {
    const { lost, walkIn, steady } = applies(
      span('ac-lost', 'S1', 2, 6, 'feeder'),
      span('ac-lost', 'S2', 2, 5, 'feeder'),
      span('walk-in', 'S2', 5, 15),
      span('walk-in', 'S1', 6, 16),
    );
    expect(lost).toEqual([{ from_s: 2, to_s: 6 }]);
    expect(walkIn).toEqual([{ from_s: 5, to_s: 16 }]);
    expect(steady).toEqual([
      { from_s: 0, to_s: 2 },
      { from_s: 26, to_s: 40 },
    ]);
  });

  it('never come back where AC is lost to the end', () => {
    const { steady } = applies({ ...span('ac-lost', 'S1', 2, 40, 'feeder'), open: true });
    expect(steady).toEqual([{ from_s: 0, to_s: 2 }]);
  });

  it.each([
    ['a unit that leaves and comes back', span('out', 'T4', 5, 18, 'taken out')],
    ['a short that clears', span('short', 'sled-1', 5, 18)],
    ['batteries that carry', span('carrying', 'B1', 5, 18)],
    ['a parameter that changes and changes back', span('altered', 'T1', 5, 18, 'tray-stuck')],
  ])('wait 10 s after both ends of %s', (_what, disturbance) => {
    expect(applies(disturbance).steady).toEqual([
      { from_s: 0, to_s: 5 },
      { from_s: 15, to_s: 18 },
      { from_s: 28, to_s: 40 },
    ]);
  });

  it('wait for the beginning alone of what still holds at the end', () => {
    const { steady } = applies({ ...span('out', 'S3', 5, 40, 'latched'), open: true });
    expect(steady).toEqual([
      { from_s: 0, to_s: 5 },
      { from_s: 15, to_s: 40 },
    ]);
  });

  it('wait until a parameter that moves along a ramp has got there, and 10 s more', () => {
    const ramp = span('altered', 'S1', 5, 30, 'coolant-loss');
    expect(applies({ ...ramp, moved_to_s: 12 }).steady).toEqual([
      { from_s: 0, to_s: 5 },
      { from_s: 22, to_s: 30 },
    ]);
  });

  it('do not wait for a unit that works at its limit, charges or hears nothing', () => {
    const quiet = [
      span('at-limit', 'S1', 5, 6, 'current'),
      span('charging', 'B1', 5, 18),
      span('unheard', 'share A', 5, 6),
      span('bus-low', 'bus', 5, 6),
    ];
    expect(applies(...quiet).steady).toEqual([window]);
  });

  it('wait where the load itself moves for good, by more than a fifth of the rating', () => {
    const stepTo = (after: number) =>
      appliesIn(
        { spans: [], window },
        240,
        loadMeans(40, (t) => (t < 8 ? 100 : after)),
        null,
      ).steady;
    expect(stepTo(147)).toEqual([window]);
    expect(stepTo(149)).toEqual([
      { from_s: 0, to_s: 8 },
      { from_s: 18, to_s: 40 },
    ]);
    expect(appliesIn({ spans: [], window }, 240, loadMeans(40, pulses), 1.6).steady).toEqual([window]);
  });
});
