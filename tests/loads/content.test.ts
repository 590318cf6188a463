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
