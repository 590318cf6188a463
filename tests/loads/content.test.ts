import { describe, expect, it } from 'vitest';
import type { Content } from '../../src/loads/demand.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { type Changes, shippedWith } from '../engine/runs.ts';

const tick_s = 0.25e-6;

function contentOf(name: string, changes: Changes = {}): Content | null {
  return makeDemand(shippedWith(name, changes)).content ?? null;
}

/** From, to [s] and whether it repeats. */
function spanOf(name: string, changes: Changes = {}): [number, number, boolean] {
  const content = contentOf(name, changes);
  if (content === null) throw new Error(`${name} has no content`);
  return [content.from_tick * tick_s, content.to_tick * tick_s, content.repeats];
}

describe('what a load is there to show', () => {
  it('is one period of a load that repeats, and no length at all of a constant one', () => {
    const [from_s, to_s, repeats] = spanOf('mirror');
    expect([from_s, repeats]).toEqual([0, true]);
    expect(to_s).toBeCloseTo(1.6, 9);
    expect(spanOf('idle')).toEqual([0, 0, true]);
    expect(contentOf('idle')!.what).toBe('any moment');
  });

  it('lasts from where a step first moves to where it is done, however short the run', () => {
    for (const duration of ['0.05 s', '2 s']) {
      const [from_s, to_s, repeats] = spanOf('single-step', { duration });
      expect(from_s).toBeCloseTo(0.1, 9);
      expect(to_s).toBeCloseTo(0.101, 9);
      expect(repeats).toBe(false);
    }
  });

  it('is not cut off with the run by a governor, whose ramps make it longer', () => {
    const slow = { 'sleds.governor_ramp_up': '10 kW/s', 'sleds.governor_ramp_down': '10 kW/s' };
    expect(spanOf('single-step', { ...slow, duration: '0.05 s' })[1]).toBeCloseTo(0.101, 9);
    // 140 kW over sixteen sleds at 10 kW/s each, the one with the largest share last.
    expect(spanOf('single-step', slow)[1]).toBeGreaterThan(0.1 + 140 / 160);
  });

  it('is all of a ladder, up and down', () => {
    expect(spanOf('step-ladder')[1]).toBeCloseTo(18.005, 6);
    expect(spanOf('step-ladder', { duration: '9.9 s' })[1]).toBeCloseTo(18.005, 6);
  });

  it('is one mean interval of what comes at random', () => {
    expect(spanOf('inference-bursts')).toEqual([0, 2, true]);
  });
});

describe('the top of a slow swing', () => {
  const topFrom = (from_s: number, name: string, changes: Changes): [number, number] => {
    const { from_tick, to_tick } = contentOf(name, changes)!.crest!.next(Math.round(from_s / tick_s));
    return [from_tick * tick_s, to_tick * tick_s];
  };
  const trend = (length: string, from_s = 0): [number, number] =>
    topFrom(from_s, 'training-iterations', { 'load.trend_period': length });

  it('is the first iteration that begins near the top of a trend', () => {
    // Within a twentieth of the top: 2.5 % of the length about it.
    expect(trend('6000 s')).toEqual([1426, 1428]);
    expect(trend('6000 s', 1574)).toEqual([1574, 1576]);
    expect(trend('6000 s', 1574.5)).toEqual([7426, 7428]);
    expect(trend('60 s')).toEqual([14, 16]);
    expect(trend('60 s', 17)).toEqual([74, 76]);
  });

  it('comes where iterations bring it, of a trend that is hardly longer than they are', () => {
    // Every third iteration is as high as any.
    expect(trend('6 s')).toEqual([2, 4]);
    // A beat of two thousand iterations, one in 500 of them high.
    const [from_s] = trend('2.001 s');
    expect(from_s).toBeGreaterThan(2 * 1400);
    expect(from_s).toBeLessThan(2 * 1600);
  });

  it('of a swell lasts until something comes', () => {
    const swell = (from_s: number): [number, number] =>
      topFrom(from_s, 'inference-bursts', { 'load.swell': '50 %', 'load.swell_period': '100 s' });
    expect(swell(4)).toEqual([25, 27]);
    expect(swell(25.1)).toEqual([125, 127]);
  });

  it('is none where nothing swings', () => {
    expect(contentOf('training-iterations', { 'load.trend': '0' })!.crest).toBeNull();
    expect(contentOf('inference-bursts')!.crest).toBeNull();
  });
});
