/** A signal on its way: what a reader gets when the wire is late, jitters, loses, freezes or scales. Exact. */
import { describe, expect, it } from 'vitest';
import { Signal } from '../../../src/firmware/signal/signal.ts';

/** A signal that counts its samples, every 10 ticks, read when 20 ticks old; its last element is the reader's own. */
function counting() {
  let count = 0;
  const takeSample = (out: Float64Array): void => {
    out[0] = count;
    out[1] = 100 + count;
  };
  const signal = new Signal(
    { name: 'count', size: 2, period: 10, latency: 20, travelling: 1 },
    { takeSample },
  );
  signal.settle();
  /** Takes one sample and reads. */
  const turn = (): number[] => {
    count++;
    signal.sample();
    return [...signal.read()];
  };
  const turns = (n: number): number[] => Array.from({ length: n }, () => turn()[0]!);
  return { signal, turn, turns };
}

describe('a signal', () => {
  it('is as old as its latency on a sound wire, faulty before or not', () => {
    const { signal, turns } = counting();
    expect(turns(5)).toEqual([0, 0, 1, 2, 3]);
    signal.wire(1);
    expect(turns(3)).toEqual([4, 5, 6]);
    expect(signal.overdue).toBe(0);
  });

  it('that grows late leaves the last value standing, then goes on later; in time again newer samples overtake', () => {
    const { signal, turns } = counting();
    turns(5);
    signal.wire(1).delay('late', 25);
    // The sample under way still arrives in time; those sent from now on wait three periods more.
    expect(turns(8)).toEqual([4, 5, 5, 5, 5, 6, 7, 8]);
    expect(signal.overdue).toBe(30);
    signal.wire(1).delay('late', 0);
    expect(turns(4)).toEqual([9, 10, 14, 15]);
  });

  it('that is lost stands while its age grows, and lets what is under way arrive', () => {
    const { signal, turns } = counting();
    turns(5);
    const wire = signal.wire(1);
    wire.lost = true;
    expect(turns(5)).toEqual([4, 5, 5, 5, 5]);
    expect(signal.overdue).toBe(30);
    wire.lost = false;
    expect(turns(3)).toEqual([5, 5, 11]);
    expect(signal.overdue).toBe(0);
  });

  it('that is frozen stands and looks fresh', () => {
    const { signal, turns } = counting();
    turns(5);
    signal.wire(1).freeze(true);
    expect(new Set(turns(6)).size).toBe(1);
    expect(signal.overdue).toBe(0);
    signal.wire(1).freeze(false);
    expect(turns(1)).toEqual([10]);
  });

  it('that jitters is never older than the largest delay, never younger than the latency, and repeats by its seed', () => {
    const read = (seed: number): number[] => {
      const { signal, turns } = counting();
      turns(10);
      signal.wire(seed).delay('jitter', 50);
      return turns(200);
    };
    const values = read(3);
    expect(read(3)).toEqual(values);
    expect(read(4)).not.toEqual(values);
    const ages = values.map((value, k) => 11 + k - value).slice(10);
    expect(Math.min(...ages)).toBeGreaterThanOrEqual(2);
    expect(Math.max(...ages)).toBeLessThanOrEqual(7);
    expect(Math.max(...ages)).toBeGreaterThan(Math.min(...ages));
    // Newest first: what the reader holds never goes back in time.
    expect(values.every((value, k) => k === 0 || value >= values[k - 1]!)).toBe(true);
  });

  it('scales what travels and leaves the reader its own measurements', () => {
    const { signal, turn, turns } = counting();
    turns(5);
    signal.wire(1).factor = -1;
    expect(turn()).toEqual([-4, 104]);
  });
});
