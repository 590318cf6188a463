/** What a run leaves: buckets, exact extremes, close-ups. */
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/channels/channel.ts';
import { Recorder } from '../../../src/engine/record/recorder.ts';

const tick_s = 0.25e-6;

describe('Recorder', () => {
  /** The values at the end of a step. */
  function take(recorder: Recorder, tick: number, value: number, judged = true): void {
    recorder.take(tick, Float64Array.of(value), judged);
  }

  const channels: readonly Channel[] = [{ id: 'x.voltage_V', kind: 'node-voltage', owner: 'x', unit: 'V' }];

  it('loses no spike, even when its store has filled and merged many times', () => {
    const steps = 400_000;
    const recorder = new Recorder(channels, steps, tick_s);
    recorder.start(0, Float64Array.of(50));
    const spikes = new Map([
      [7, 70],
      [123_457, 80],
      [123_459, 20],
      [399_999, 10],
    ]);
    for (let k = 1; k <= steps; k++) {
      take(recorder, k, spikes.get(k) ?? 50 + (k % 2));
    }
    const { bucketCount, edges_s, min, max } = recorder.recording(true);
    expect(bucketCount).toBeLessThanOrEqual(8192);
    expect(edges_s).toHaveLength(bucketCount + 1);
    expect(edges_s[0]).toBe(0);
    expect(edges_s[bucketCount]).toBeCloseTo(steps * tick_s, 12);
    for (const [k, value] of spikes) {
      let b = 0;
      while (edges_s[b + 1]! < (k - 0.5) * tick_s) b++;
      expect(value > 50 ? max[0]![b] : min[0]![b]).toBe(value);
    }
    // Every other bucket holds the plain signal and nothing else.
    const high = [...max[0]!].filter((value) => value > 51);
    expect(high.sort()).toEqual([70, 80]);
    const [reading] = recorder.readings();
    expect(reading).toEqual({
      channel: 'x.voltage_V',
      min: 10,
      min_s: 399_999 * tick_s,
      max: 80,
      max_s: 123_457 * tick_s,
    });
  });

  it('buckets are contiguous and ascend when steps are uneven', () => {
    const recorder = new Recorder(channels, 1_000_000, tick_s);
    recorder.start(0, Float64Array.of(1));
    let tick = 0;
    for (let k = 0; k < 30_000; k++) {
      tick += 1 + ((k * 7) % 200);
      take(recorder, tick, tick);
    }
    const { bucketCount, edges_s, min, max } = recorder.recording(true);
    for (let b = 0; b < bucketCount; b++) {
      expect(edges_s[b + 1]!).toBeGreaterThan(edges_s[b]!);
      // A rising signal: each bucket begins where the last one ended (single precision: 24 bits).
      if (b > 0) expect(Math.abs(min[0]![b]! - max[0]![b - 1]!)).toBeLessThan(1);
    }
  });

  it('leaves out of the extremes what is not judged', () => {
    const recorder = new Recorder(channels, 100, tick_s);
    recorder.start(0, Float64Array.of(50));
    take(recorder, 1, 10, false);
    take(recorder, 2, 50, false);
    recorder.cut(Float64Array.of(50), false);
    take(recorder, 3, 49);
    take(recorder, 4, 51);
    const { min } = recorder.recording(true);
    expect(recorder.readings()[0]).toMatchObject({ min: 49, max: 51 });
    expect(Math.min(...min[0]!)).toBe(10);
  });

  it('gives a run hundreds of times as long buckets of even width', () => {
    const steps = 4_000_000;
    const recorder = new Recorder(channels, steps, tick_s);
    recorder.start(0, Float64Array.of(0));
    const values = new Float64Array(1);
    for (let k = 1; k <= steps; k++) {
      values[0] = k % 2000 < 1000 ? 1 : 0;
      recorder.take(k, values, true);
    }
    const { bucketCount, edges_s, max } = recorder.recording(true);
    const widths = Array.from({ length: bucketCount }, (_, b) => edges_s[b + 1]! - edges_s[b]!);
    expect(bucketCount).toBeGreaterThan(2048);
    expect(Math.max(...widths) / Math.min(...widths.slice(0, -1))).toBeLessThan(1.01);
    // The last half shows its pulses and the first half too: none is one flat block.
    const low = max[0]!.map((value, b) => (value === 0 ? b : -1)).filter((b) => b >= 0);
    expect(low.filter((b) => b < bucketCount / 2).length).toBeGreaterThan(0.4 * low.length);
  });

  it('keeps the mean over time of every bucket, joined ones too', () => {
    const recorder = new Recorder(channels, 500_000, tick_s);
    recorder.start(0, Float64Array.of(0));
    let tick = 0;
    for (let k = 0; tick < 500_000; k++) {
      tick += 1 + (k % 3);
      take(recorder, tick, tick);
    }
    const { bucketCount, edges_s, mean } = recorder.recording(true);
    for (let b = 0; b < bucketCount; b++) {
      // A ramp: its mean is its value in the middle (single precision).
      const middle = (edges_s[b]! + edges_s[b + 1]!) / 2 / tick_s;
      expect(Math.abs(mean[0]![b]! / middle - 1)).toBeLessThan(1e-6);
    }
  });
});

describe('close-ups', () => {
  const channels: readonly Channel[] = [
    { id: 'x.voltage_V', kind: 'node-voltage', owner: 'x', unit: 'V' },
    { id: 'tie.current_A', kind: 'bar-current', owner: 'tie', unit: 'A' },
  ];
  const step = 160;
  const ms = Math.round(1e-3 / tick_s);

  /** A run of 6 s, a step every 40 µs, with an edge every 50 ms: the k-th moves the bus by as many volts as `swing` says. */
  function record(swing: (edge: number) => number): ReturnType<Recorder['recording']> {
    const recorder = new Recorder(channels, 6000 * ms, tick_s);
    recorder.start(0, Float64Array.of(50, 0));
    const values = new Float64Array(2);
    for (let tick = step; tick <= 6000 * ms; tick += step) {
      if ((tick - step) % (50 * ms) === 0) recorder.edge(tick - step);
      const since_s = ((tick - step) % (50 * ms)) * tick_s;
      values[0] = 50 - swing(Math.floor((tick - step) / (50 * ms))) * Math.exp(-since_s / 1e-3);
      values[1] = tick === 4321 * ms ? 999 : tick % 7;
      recorder.take(tick, values, true);
    }
    return recorder.recording(true);
  }

  it('hold every step around the fifty worst edges, and none of the others', () => {
    const worst = (edge: number): boolean => edge % 2 === 1 && edge < 100;
    const { closeUps } = record((edge) => (worst(edge) ? 1 + edge / 1000 : 0.1));
    for (let edge = 0; edge < 120; edge++) {
      const at_s = edge * 0.05;
      const within = closeUps.find(({ time_s }) => time_s[0]! <= at_s && time_s.at(-1)! > at_s + 8e-3);
      expect(within !== undefined, `edge ${edge}`).toBe(worst(edge));
      if (within === undefined) continue;
      const { time_s, values } = within;
      expect(time_s[0]!).toBeLessThanOrEqual(at_s - 0.9e-3);
      expect(time_s.at(-1)!).toBeGreaterThanOrEqual(at_s + 9.9e-3);
      for (let k = 1; k < time_s.length; k++) expect(time_s[k]! - time_s[k - 1]!).toBeCloseTo(4e-5, 9);
      const dip = Math.min(...values[0]!);
      expect(dip).toBeCloseTo(50 - (1 + edge / 1000), 4);
    }
  });

  it('hold the moment at which a kind of quantity was highest, wherever it is', () => {
    const { closeUps } = record(() => 0.1);
    const peak = closeUps.find(({ values }) => values[1]!.includes(999))!;
    expect(peak.time_s[peak.values[1]!.indexOf(999)]).toBeCloseTo(4.321, 9);
  });

  it('do not overlap, and are as many bytes for an hour as for a minute', () => {
    const { closeUps } = record((edge) => edge);
    closeUps.slice(1).forEach(({ time_s }, k) => {
      expect(time_s[0]!).toBeGreaterThan(closeUps[k]!.time_s.at(-1)!);
    });
    // Of fifty edges 64 leaves of 16 steps each at the most, of each kind's two peaks 16 leaves.
    const moments = closeUps.reduce((sum, { time_s }) => sum + time_s.length, 0);
    expect(moments).toBeLessThanOrEqual((50 * 64 + 4 * 16) * 17);
  });
});
