import { describe, expect, it } from 'vitest';
import { SpanBook } from '../../src/events/span-book.ts';
import { SpanChoice } from '../../src/events/span-choice.ts';

/** A book whose clock the test turns, in ticks of 1 s. */
function book() {
  const clock = { tick: 0 };
  const spans = new SpanBook(clock);
  const at = (tick: number) => {
    clock.tick = tick;
    return spans;
  };
  return { at, readings: (end: number) => spans.readings(end, 1) };
}

describe('a book of spans', () => {
  it('keeps what begins and ends, and leaves open what holds at the end', () => {
    const { at, readings } = book();
    at(1).track('walk-in', 'S1', '').begin();
    at(2).track('carrying', 'B1', '').begin();
    at(3).track('walk-in', 'S1', '').end();
    expect(readings(10)).toMatchObject([
      { kind: 'walk-in', who: 'S1', from_s: 1, to_s: 3, open: false, count: 1, held_s: 2 },
      { kind: 'carrying', who: 'B1', from_s: 2, to_s: 10, open: true, count: 1, held_s: 8 },
    ]);
  });

  it('takes a beginning said twice, and an end of nothing, for nothing', () => {
    const { at, readings } = book();
    at(1).track('short', 'K1', '').end();
    at(2).track('short', 'K1', '').begin();
    at(3).track('short', 'K1', '').begin();
    at(4).track('short', 'K1', '').end();
    at(5).track('short', 'K1', '').end();
    expect(readings(10)).toMatchObject([{ from_s: 2, to_s: 4, count: 1 }]);
  });

  it('goes on where it ends and begins at one tick, and keeps nothing of no length', () => {
    const { at, readings } = book();
    const track = at(1).track('at-limit', 'S1', 'slew');
    track.begin();
    at(2);
    track.end();
    track.begin();
    at(4);
    track.end();
    at(6);
    track.begin();
    track.end();
    expect(readings(10)).toMatchObject([{ from_s: 1, to_s: 4, count: 1, held_s: 3 }]);
  });

  it('stays bounded however often a unit chatters, with exact count and time', () => {
    const { at, readings } = book();
    const times = 100_000;
    for (let k = 0; k < times; k++) {
      at(3 * k)
        .track('at-limit', 'S1', 'slew')
        .begin();
      at(3 * k + 1)
        .track('at-limit', 'S1', 'slew')
        .end();
    }
    const spans = readings(3 * times);
    expect(spans.length).toBe(64);
    expect(spans.reduce((sum, { count }) => sum + count, 0)).toBe(times);
    expect(spans.reduce((sum, { held_s }) => sum + held_s, 0)).toBe(times);
    expect(spans.at(-1)).toMatchObject({ from_s: 3 * 63, to_s: 3 * (times - 1) + 1, open: false });
  });

  it('keeps every alteration apart, with its amount and how long it moved', () => {
    const { at, readings } = book();
    const track = at(0).track('altered', 'LA1', 'joint-aged');
    for (let k = 0; k < 200; k++) {
      at(10 * k);
      if (k === 0) track.begin(k);
      else track.renew(k);
      at(10 * k + 4);
      track.move(k + 0.5);
    }
    const spans = readings(2000);
    expect(spans.length).toBe(200);
    expect(spans[7]).toMatchObject({ from_s: 70, to_s: 80, moved_to_s: 74, amount: 7.5 });
  });

  it('forgets the past when it starts anew, and what holds begins then', () => {
    const { at, readings } = book();
    const track = at(5).track('at-limit', 'T1', 'power');
    track.begin();
    at(7).track('carrying', 'B1', '').begin();
    at(8).track('carrying', 'B1', '').end();
    at(0).restart();
    at(2);
    track.end();
    expect(readings(10)).toMatchObject([{ kind: 'at-limit', from_s: 0, to_s: 2, held_s: 2 }]);
    expect(readings(10).length).toBe(1);
  });

  it('lets one word of several hold at a time', () => {
    const { at, readings } = book();
    const choice = new SpanChoice(at(0), 'at-limit', 'S1', ['current', 'power']);
    choice.hold('current');
    at(2);
    choice.hold('power');
    at(3);
    choice.hold('power');
    at(5);
    choice.hold(null);
    expect(readings(10)).toMatchObject([
      { what: 'current', from_s: 0, to_s: 2 },
      { what: 'power', from_s: 2, to_s: 5 },
    ]);
  });
});
