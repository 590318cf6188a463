import { describe, expect, it } from 'vitest';
import { unshown } from '../../src/engine/unshown.ts';
import type { Content } from '../../src/loads/demand.ts';
import { happens } from '../happens.ts';

const tick_s = 1e-3;
const window = { from_s: 1, to_s: 10 };

describe('an event that was asked for', () => {
  const told = (at_s: number, more: { for_s?: number; over_s?: number } = {}): string[] =>
    unshown([{ ...happens(at_s, 'ac-sag', 'F1'), ...more }], null, tick_s, window);

  it('is shown from the beginning of the window to half a second before its end', () => {
    expect(told(1)).toEqual([]);
    expect(told(9.5)).toEqual([]);
    expect(told(9.499)).toEqual([]);
  });

  it('is not shown before the window, at its end or after it', () => {
    expect(told(0.999)).toEqual(['ac-sag F1 at 0.999 s lies before the judged window, which begins at 1 s']);
    for (const at_s of [10, 11]) expect(told(at_s)[0]).toMatch(/lies after the judged window/);
  });

  it('is not shown where less than half a second follows it', () => {
    expect(told(9.51)[0]).toMatch(/has less than 0.5 s after it: the judged window ends at 10 s$/);
  });

  it('needs its ramp and its own length before that', () => {
    expect(told(5, { for_s: 4.5 })).toEqual([]);
    expect(told(5, { for_s: 4.6 })[0]).toMatch(/over at 9.6 s, has less than 0.5 s after it/);
    expect(told(5, { over_s: 2, for_s: 2.6 })).toHaveLength(1);
    expect(told(5, { over_s: 5 })).toHaveLength(1);
  });

  it('is told for itself among others', () => {
    const events = [
      happens(0, 'tray-out', 'T1'),
      happens(5, 'tray-out', 'T2'),
      happens(12, 'tray-out', 'T3'),
    ];
    expect(unshown(events, null, tick_s, window).map((phrase) => phrase.slice(0, 11))).toEqual([
      'tray-out T1',
      'tray-out T3',
    ]);
  });
});

describe('the content of a load', () => {
  const told = (from_s: number, to_s: number, repeats: boolean): string[] => {
    const content: Content = { from_tick: from_s / tick_s, to_tick: to_s / tick_s, what: 'it', repeats };
    return unshown([], content, tick_s, window);
  };

  it('is shown where it moves inside the window, half a second before its end', () => {
    expect(told(1, 9.5, false)).toEqual([]);
    expect(told(0.9, 5, false)).toEqual(['it begins at 0.9 s, before the judged window at 1 s']);
    expect(told(2, 9.6, false)[0]).toMatch(/^it is over at 9.6 s and needs 0.5 s after it/);
    expect(told(0.5, 11, false)).toHaveLength(2);
  });

  it('that repeats is shown once one round of it fits, wherever', () => {
    expect(told(0, 9, true)).toEqual([]);
    expect(told(0, 0, true)).toEqual([]);
    expect(told(0, 9.1, true)).toEqual(['it of 9.1 s is longer than the judged window']);
  });

  it('that swings slowly is shown once the top of that lies in the window too', () => {
    const told = (every_s: number): string[] => {
      const crest = {
        what: 'its top',
        next: (from: number) => {
          const at = Math.ceil(from / (every_s / tick_s)) * (every_s / tick_s);
          return { from_tick: at, to_tick: at + 1 / tick_s };
        },
      };
      return unshown([], { from_tick: 0, to_tick: 2000, what: 'it', repeats: true, crest }, tick_s, window);
    };
    expect(told(1)).toEqual([]);
    expect(told(9)).toEqual([]);
    expect(told(9.1)).toEqual([
      'its top comes at 9.1 s; the judged window ends at 10 s, and a run of 10.1 s would show it',
    ]);
  });
});
