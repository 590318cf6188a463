/**
 * Damped pairs of steps: what they leave of what is fast, what they take from what swings, and a trim by its quantum stepped
 * over by them. The two-stage method of Alexander (SIAM Journal on Numerical Analysis 14, 1977): γ from memory, its order and
 * L-stability shown here and in order.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { ready } from '../../src/engine/cabinet.ts';
import { DampedPairs } from '../../src/engine/damped-pairs.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import { shippedWith } from './runs.ts';

/** What a pair of `whole` ticks makes of e^(z t): the product of (1 + p z)/(1 − q z) over both steps, z complex per tick. */
function gain(whole: number, re: number, im: number): number {
  const pairs = new DampedPairs();
  pairs.ask();
  let product = 1;
  for (let k = 0; k < 2; k++) {
    const ticks = pairs.next(0, whole, whole);
    const q = pairs.rungTicks / 2;
    const p = ticks - q;
    product *= Math.hypot(1 + p * re, p * im) / Math.hypot(1 - q * re, q * im);
    pairs.done();
  }
  return product;
}

describe('a damped pair', () => {
  it('asks for two pairs, each of two steps with ends of one weight', () => {
    const pairs = new DampedPairs();
    expect(pairs.next(8, 2000, 2000)).toBe(0);
    pairs.ask();
    const lengths: number[] = [];
    for (let ticks = pairs.next(8, 2000, 2000); ticks > 0; ticks = pairs.next(8, 2000, 2000)) {
      lengths.push(ticks);
      expect(pairs.rungTicks).toBe(2 * 586);
      pairs.done();
    }
    expect(lengths).toEqual([586, 1414, 586, 1414]);
  });

  it('is given up where the second step would go too far, and where it is dropped', () => {
    const pairs = new DampedPairs();
    pairs.ask();
    pairs.next(8, 2000, 2000);
    pairs.done();
    expect(pairs.next(8, 1000, 1000)).toBe(0);
    expect(pairs.isOn).toBe(false);
    pairs.ask();
    pairs.drop();
    expect(pairs.next(8, 2000, 2000)).toBe(0);
  });

  it('waits for room: a stretch too short for a pair is stepped as usual', () => {
    const pairs = new DampedPairs();
    pairs.ask();
    expect(pairs.next(1000, 68, 68)).toBe(0);
    expect(pairs.next(1000, 1932, 1932)).toBe(566);
  });

  it.each([
    [50, 8e-6],
    [100, 8e-5],
    [300, 3e-3],
  ])('takes next to nothing from a swing at %i Hz', (frequency_Hz, most) => {
    const lost = 1 - gain(2000, 0, 2 * Math.PI * frequency_Hz * 0.25e-6);
    expect(lost).toBeGreaterThan(0);
    expect(lost).toBeLessThan(most);
  });

  it('leaves nothing of what is fast, where the trapezoidal rule turns it over', () => {
    const whole = 2000;
    expect(gain(whole, -1e3, 0)).toBeLessThan(1e-5);
    expect(Math.abs((1 - 1e3 * (whole / 2)) / (1 + 1e3 * (whole / 2)))).toBeGreaterThan(0.99);
  });
});

describe('a trim by its quantum', () => {
  const quantum_V = 10e-3;
  const tick_s = 0.25e-6;

  /** Node voltages at every half a millisecond after shelf 3 has been trimmed up. */
  function trimmed(
    step: (take: (ticks: number, rungTicks?: number) => void, half: number) => void,
  ): Float64Array[] {
    const scenario = shippedWith('idle', { 'load.power': '200 kW' });
    const { stepper, network } = ready(assemble(scenario), makeDemand(scenario), 1);
    network.stages.trim_V[2]! += quantum_V;
    let tick = 0;
    const take = (ticks: number, rungTicks?: number): void => {
      expect(stepper.take(tick, ticks, rungTicks)).toBe('done');
      stepper.accept();
      tick += ticks;
    };
    return Array.from({ length: 6 }, (_, half) => {
      step(take, half);
      return stepper.v0.slice();
    });
  }

  const most = (a: Float64Array, b: Float64Array): number =>
    a.reduce((worst, v, k) => Math.max(worst, Math.abs(v - b[k]!)), 0);

  it('is over after two pairs, and rings on for milliseconds by the trapezoidal rule at the same step', () => {
    expect(tick_s * 2000).toBe(0.5e-3);
    const fine = trimmed((take) => {
      for (let k = 0; k < 500; k++) take(4);
    });
    const straight = trimmed((take) => take(2000));
    const paired = trimmed((take, half) => {
      if (half > 1) return take(2000);
      const pairs = new DampedPairs();
      pairs.ask();
      for (let k = 0; k < 2; k++) {
        const ticks = pairs.next(0, 2000, 2000);
        take(ticks, pairs.rungTicks);
        pairs.done();
      }
    });
    const off = (rows: Float64Array[], half: number): number => most(rows[half]!, fine[half]!);
    // Millivolts of a bus that swings by half a volt; what is left after two pairs is below a tenth of the quantum.
    expect(off(straight, 2)).toBeGreaterThan(1.5e-3);
    expect(off(paired, 0)).toBeLessThan(2e-3);
    expect(off(paired, 1)).toBeLessThan(1e-3);
    for (const half of [2, 3, 4, 5]) {
      expect(off(paired, half)).toBeLessThan(0.5e-3);
      expect(off(paired, half)).toBeLessThan(off(straight, half) / 2);
    }
  });
});
