import { describe, expect, it } from 'vitest';
import { Zigzag } from '../../../src/engine/meters/zigzag.ts';

/** Turning points of one signal, by scale. */
function turnsOf(signal: (tick: number) => number, ticks: number, floor: number): [number, number][][] {
  const turns: [number, number][][] = [];
  const turned = (place: number, tick: number, value: number): void => {
    turns[place] ??= [];
    turns[place]!.push([tick, value]);
  };
  const zigzag = new Zigzag(Int32Array.of(0), Float64Array.of(floor), { turned });
  zigzag.start(0, Float64Array.of(signal(0)));
  for (let tick = 1; tick <= ticks; tick++) zigzag.take(tick, Float64Array.of(signal(tick)));
  return turns;
}

const wave = (period: number, size: number) => (tick: number) =>
  (size / 2) * Math.sin((2 * Math.PI * tick) / period);

describe('turning points', () => {
  it('are the extremes of a wave, each once', () => {
    const [finest] = turnsOf(wave(100, 10), 1000, 1);
    // Where looking began, then a crest or trough every 50 ticks; each is told once it is left by a floor.
    expect(finest!.slice(1).map(([tick]) => tick)).toEqual([...Array(20).keys()].map((k) => 25 + 50 * k));
    for (const [, value] of finest!.slice(1)) expect(Math.abs(value)).toBeCloseTo(5, 6);
  });

  it('are not seen where the swing is below the floor, nor on a drift without end', () => {
    expect(turnsOf(wave(100, 0.9), 1000, 1)).toEqual([]);
    const [finest] = turnsOf((tick) => 0.5 * tick, 1000, 1);
    expect(finest!.length).toBeLessThanOrEqual(1);
  });

  it('show a slow swing through a fast ripple at the scale above the ripple', () => {
    const signal = (tick: number) => wave(1000, 12)(tick) + wave(20, 2.5)(tick);
    const turns = turnsOf(signal, 10_000, 1);
    expect(turns[0]!.length).toBeGreaterThan(500);
    // Floors of 4 units and more: above the ripple, below the swing.
    for (const scale of [2, 3]) {
      const ticks = turns[scale]!.slice(1).map(([tick]) => tick);
      expect(ticks.length).toBeGreaterThanOrEqual(16);
      const half = (ticks.at(-1)! - ticks[0]!) / (ticks.length - 1);
      expect(half).toBeGreaterThan(490);
      expect(half).toBeLessThan(510);
    }
    expect(turns[4]).toBeUndefined();
  });
});
