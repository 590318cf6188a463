/**
 * The meters that look on, each against a signal whose answer is known. Tolerances: straight lines between the
 * ends of steps are integrated exactly, so means, mean squares and crossings hold to rounding (1e-12).
 */
import { describe, expect, it } from 'vitest';
import { Bins } from '../../src/engine/meters/bins.ts';
import { MeanSquareMeter } from '../../src/engine/meters/mean-square.ts';
import { RoundMeter } from '../../src/engine/meters/rounds.ts';
import { StayMeter } from '../../src/engine/meters/stay-meter.ts';
import { StreamMeter } from '../../src/engine/meters/streams.ts';

const tick_s = 0.25e-6;

describe('Bins', () => {
  it('gives the means of a straight line whatever the steps', () => {
    const cuts = [
      [0, 10, 20, 30, 40],
      [0, 1, 7, 19, 23, 40],
      [0, 40],
    ];
    for (const ticks of cuts) {
      const means: number[] = [];
      const bins = new Bins(Int32Array.of(0), 0, 10, 40);
      bins.start(Float64Array.of(1));
      for (let k = 1; k < ticks.length; k++) {
        const [a, b] = [ticks[k - 1]!, ticks[k]!];
        bins.feed(a, b, Float64Array.of(3 * b + 1));
        bins.hand((rows, at) => means.push(rows[at]!));
      }
      expect(means).toHaveLength(4);
      means.forEach((mean, n) => {
        expect(mean).toBeCloseTo(3 * (10 * n + 5) + 1, 12);
      });
    }
  });

  it('keeps the integral of a ragged signal', () => {
    let integral = 0;
    let kept = 0;
    const bins = new Bins(Int32Array.of(0), 5, 7, 11);
    let tick = 5;
    let value = 2;
    bins.start(Float64Array.of(value));
    for (let k = 0; k < 70; k++) {
      const width = 1 + ((k * 5) % 11);
      const next = ((k * 37) % 19) - 9;
      // Only whole bins are given out: stop the sum on a bin's edge.
      const to = Math.min(tick + width, 5 + 7 * 50);
      const end = value + ((next - value) * (to - tick)) / width;
      if (to > tick) {
        integral += ((to - tick) * (value + end)) / 2;
        bins.feed(tick, to, Float64Array.of(end));
        bins.hand((rows, at) => {
          kept += rows[at]! * 7;
        });
      }
      tick = to;
      value = end;
    }
    expect(tick).toBe(5 + 7 * 50);
    expect(kept).toBeCloseTo(integral, 9);
  });
});

describe('MeanSquareMeter', () => {
  it('gives mean and RMS of a triangle exactly', () => {
    const meter = new MeanSquareMeter([{ id: 'x', index: 0 }]);
    meter.start(Float64Array.of(-1));
    meter.take(0, 100, Float64Array.of(3));
    meter.take(100, 300, Float64Array.of(-1));
    const [reading] = meter.readings();
    // From −1 to 3 and back: mean 1, mean square (a² + ab + b²)/3 = 7/3.
    expect(reading!.mean).toBeCloseTo(1, 12);
    expect(reading!.rms).toBeCloseTo(Math.sqrt(7 / 3), 12);
  });
});

describe('RoundMeter', () => {
  /** A channel that is 1 up to tick 1000 and 3 after it, in steps of 10; rounds of `round` ticks. */
  function changing(round: number, ticks: number) {
    const meter = new MeanSquareMeter([{ id: 'x', index: 0 }]);
    const rounds = new RoundMeter(meter, 0, round, tick_s);
    for (let tick = 0; tick < ticks; tick += 10) {
      const value = Float64Array.of(tick < 1000 ? 1 : 3);
      meter.start(value);
      meter.take(tick, tick + 10, value);
      rounds.step(tick + 10);
    }
    return rounds.readings();
  }

  it('tells what goes on from what was there before', () => {
    const rounds = changing(500, 2200);
    expect(rounds.map(({ from_s }) => Math.round(from_s / tick_s))).toEqual([500, 1000, 1500, 2000]);
    const rms = rounds.map(({ squares: [x] }) => x!.rms);
    // 500 ticks of 1 and 1200 of 3, then 3 alone.
    expect(rms[0]).toBeCloseTo(Math.sqrt((500 + 1200 * 9) / 1700), 12);
    for (const later of rms.slice(1)) expect(later).toBeCloseTo(3, 12);
  });

  it('begins none where the window ends', () => {
    expect(changing(500, 1000).map(({ from_s }) => Math.round(from_s / tick_s))).toEqual([500]);
  });

  it('keeps at most 64 rounds of a long run, evenly spread', () => {
    const begins = changing(10, 20_000).map(({ from_s }) => Math.round(from_s / tick_s));
    expect(begins.length).toBeGreaterThan(32);
    expect(begins.length).toBeLessThanOrEqual(64);
    const gaps = new Set(begins.slice(1).map((tick, j) => tick - begins[j]!));
    expect([...gaps]).toEqual([begins[0]]);
    expect(begins.at(-1)).toBeGreaterThan(20_000 - 2 * begins[0]!);
  });
});

describe('StayMeter', () => {
  it('finds the longest stay, its begin and the count, with crossings inside steps', () => {
    const meter = new StayMeter(['n'], Float64Array.of(48, 51), tick_s);
    const path: readonly (readonly [number, number])[] = [
      [0, 50],
      [100, 46], // crosses 48 at 50
      [200, 46],
      [300, 50], // back at 250: stay of 200 ticks
      [400, 47], // crosses at 366.67
      [500, 50], // back at 433.33
      [600, 52], // above 51 from 550
      [700, 52], // to the end
    ];
    meter.start(0, Float64Array.of(50));
    for (let k = 1; k < path.length; k++) {
      const [t0, a] = path[k - 1]!;
      const [t1, b] = path[k]!;
      meter.take(t0, Float64Array.of(a), t1, Float64Array.of(b));
    }
    const { normal, carry, carry_s } = meter.reading(700);
    expect(normal.below_s[0]).toBeCloseTo(200 * tick_s, 15);
    expect(normal.belowAt_s[0]).toBeCloseTo(50 * tick_s, 15);
    expect(normal.belowCount[0]).toBe(2);
    expect(normal.above_s[1]).toBeCloseTo(150 * tick_s, 15);
    expect(normal.aboveAt_s[1]).toBeCloseTo(550 * tick_s, 15);
    expect(normal.aboveCount[1]).toBe(1);
    expect(carry_s).toBe(0);
    expect(carry.belowCount[0]).toBe(0);
  });

  it('jumps over several levels in one step', () => {
    const meter = new StayMeter(['n'], Float64Array.of(40, 44, 48), tick_s);
    meter.start(0, Float64Array.of(50));
    meter.take(0, Float64Array.of(50), 100, Float64Array.of(30));
    meter.take(100, Float64Array.of(30), 200, Float64Array.of(50));
    const { normal } = meter.reading(300);
    expect([...normal.belowCount]).toEqual([1, 1, 1]);
    // Down through 40 at 50 and up again at 150, 44 at 30 and 170, 48 at 10 and 190.
    [100, 140, 180].forEach((stay, l) => {
      expect(normal.below_s[l]).toBeCloseTo(stay * tick_s, 15);
    });
  });

  it('keeps time with batteries carrying in its own column', () => {
    const meter = new StayMeter(['n'], Float64Array.of(48), tick_s);
    const low = Float64Array.of(47);
    meter.start(0, low);
    meter.take(0, low, 100, low);
    meter.turn(100, true);
    meter.take(100, low, 400, low);
    meter.count(300);
    meter.turn(400, false);
    meter.take(400, low, 450, low);
    const { normal, carry, carry_s } = meter.reading(450);
    expect(normal.below_s[0]).toBeCloseTo(100 * tick_s, 15);
    expect(carry.below_s[0]).toBeCloseTo(300 * tick_s, 15);
    expect(carry_s).toBeCloseTo(300 * tick_s, 15);
  });
});

describe('StreamMeter', () => {
  /** Amplitude that the stream shows of a unit sine, from its middle, where the ends do not reach. */
  function amplitude(frequency_Hz: number, steps_s: number, seenAt_Hz: number): number {
    const meter = new StreamMeter([{ id: 'x', index: 0 }], 0, 4000, tick_s);
    const w = 2 * Math.PI * frequency_Hz;
    const at = (tick: number): Float64Array => Float64Array.of(Math.cos(w * tick * tick_s));
    meter.start(at(0));
    const width = Math.round(steps_s / tick_s);
    const end = Math.round(1.2 / tick_s);
    for (let tick = 0; tick < end; tick += width) {
      meter.feed(tick, tick + width, at(tick + width));
      meter.keep();
    }
    const [{ samples, rate_Hz }] = meter.readings() as [ReturnType<StreamMeter['readings']>[0]];
    expect(rate_Hz).toBe(1000);
    // One second from 0.1 s: a whole number of periods of every frequency asked for.
    let re = 0;
    let im = 0;
    for (let k = 100; k < 1100; k++) {
      const phase = (2 * Math.PI * seenAt_Hz * (k + 0.5)) / rate_Hz;
      re += samples[k]! * Math.cos(phase);
      im += samples[k]! * Math.sin(phase);
    }
    return (2 * Math.hypot(re, im)) / 1000;
  }

  it.each([1, 10, 50, 100, 200, 300])('is flat to 0.1 %% at %i Hz', (frequency) => {
    // 2 µs steps: the straight lines between them take (ωh)²/12 off, 1e-6 at 300 Hz.
    expect(Math.abs(amplitude(frequency, 2e-6, frequency) - 1)).toBeLessThan(1e-3);
  });

  it.each([
    [700, 300],
    [800, 200],
    [1000 - 50, 50],
    [1300, 300],
    [2100, 100],
    [3700, 300],
    [4000 - 20, 20],
    [8200, 200],
    [15_300, 300],
  ])('folds %i Hz down by 75 dB or more where it would show, at %i Hz', (frequency, folded) => {
    expect(amplitude(frequency, 2e-6, folded)).toBeLessThan(10 ** (-75 / 20));
  });

  it('gives the same samples of a line in steps longer than a sample', () => {
    const samplesIn = (width: number): Float64Array => {
      const meter = new StreamMeter([{ id: 'x', index: 0 }], 0, 20_000, tick_s);
      meter.start(Float64Array.of(0));
      for (let tick = width; tick <= 2_000_000; tick += width) {
        meter.feed(tick - width, tick, Float64Array.of(tick * tick_s));
        meter.keep();
      }
      return meter.readings()[0]!.samples;
    };
    const [fine, coarse] = [samplesIn(400), samplesIn(20_000)] as const;
    expect(coarse).toHaveLength(500);
    coarse.forEach((sample, j) => {
      expect(sample).toBeCloseTo(fine[j]!, 12);
    });
  });

  it('gives one sample a millisecond, centred in it', () => {
    const meter = new StreamMeter([{ id: 'x', index: 0 }], 0, 4000, tick_s);
    const width = 400;
    meter.start(Float64Array.of(0));
    for (let k = 0; k < 5000; k++) {
      meter.feed(k * width, (k + 1) * width, Float64Array.of((k + 1) * width * tick_s));
      meter.keep();
    }
    const [{ samples }] = meter.readings() as [ReturnType<StreamMeter['readings']>[0]];
    expect(samples).toHaveLength(500);
    // A straight line passes a linear-phase filter unchanged: sample j stands for (j + ½) ms.
    for (const j of [50, 200, 450]) expect(samples[j]!).toBeCloseTo((j + 0.5) * 1e-3, 9);
  });
});
