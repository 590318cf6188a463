/** The picture of a run: small, no spike lost, times exact, values within what is stated in picture.md. */
import { gzipSync } from 'node:zlib';
import { scaleLinear } from 'd3';
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../src/channels/channel.ts';
import type { Recording } from '../../src/engine/result.ts';
import { coarser } from '../../src/picture/coarser.ts';
import { byKind } from '../../src/picture/kinds.ts';
import { packPicture, unpackPicture } from '../../src/picture/packed.ts';
import { bucketsFor, bucketsOf, pictureOf } from '../../src/picture/picture.ts';
import { fold, stepsOf, unfold } from '../../src/picture/remainders.ts';
import { thinned } from '../../src/picture/thinner.ts';
import { syntheticRun } from '../fixtures/run.ts';

const tick_s = 0.25e-6;
const { result } = syntheticRun(3.2);

function packed(picture = pictureOf(result)) {
  return packPicture(picture, tick_s);
}

describe('a picture', () => {
  const before = pictureOf(result);
  const { channels } = before.recording;
  const { recording: after, even } = unpackPicture(packed(), channels);

  it('keeps every time to the tick', () => {
    expect(after.edges_s).toEqual(before.recording.edges_s.map((t) => Math.round(t / tick_s) * tick_s));
    before.closeUps.forEach(({ time_s }, k) => {
      expect(after.closeUps[k]!.time_s).toEqual(time_s.map((t) => Math.round(t / tick_s) * tick_s));
    });
  });

  it('loses no spike: smallest values are never raised, largest never lowered, by more than single precision', () => {
    // How far each goes in the worst bucket, in what it may.
    const worst = { raised: 0, lowered: 0, wider: 0, off: 0 };
    for (const places of byKind(channels)) {
      const all = places.flatMap((c) => [...before.recording.min[c]!, ...before.recording.max[c]!]);
      const level = (Math.max(...all) - Math.min(...all)) / 4094;
      const digit = 1e-7 * Math.max(1e-9, ...all.map(Math.abs));
      for (const c of places) {
        for (let b = 0; b < after.bucketCount; b += 1) {
          const raised = after.min[c]![b]! - before.recording.min[c]![b]!;
          const lowered = before.recording.max[c]![b]! - after.max[c]![b]!;
          const reach = after.max[c]![b]! - after.min[c]![b]!;
          const off = Math.abs(after.mean[c]![b]! - before.recording.mean[c]![b]!);
          worst.raised = Math.max(worst.raised, raised / digit);
          worst.lowered = Math.max(worst.lowered, lowered / digit);
          worst.wider = Math.max(worst.wider, -raised / (level + digit), -lowered / (level + digit));
          worst.off = Math.max(worst.off, off / (reach / 63 + 2 * level + digit));
        }
      }
    }
    for (const [what, share] of Object.entries(worst)) expect(share, what).toBeLessThanOrEqual(1);
  });

  it('keeps every value of a close-up within what a line may miss, and a quarter of that for rounding', () => {
    let worst = 0;
    result.recording.closeUps.forEach(({ time_s, values }, k) => {
      const shown = after.closeUps[k]!;
      for (const places of byKind(channels)) {
        const all = places.flatMap((c) => [...values[c]!]);
        const beside = before.straight_ratio * (Math.max(...all) - Math.min(...all));
        const digit = 1e-6 * Math.max(1e-9, ...all.map(Math.abs));
        for (const c of places) {
          const line = scaleLinear([...shown.time_s], [...shown.values[c]!]);
          values[c]!.forEach((value, m) => {
            worst = Math.max(worst, Math.abs(line(time_s[m]!) - value) / (1.26 * beside + digit));
          });
        }
      }
    });
    expect(worst).toBeGreaterThan(0);
    expect(worst).toBeLessThanOrEqual(1);
  });

  it('keeps streams and the means of AC power', () => {
    expect(even.map(({ name }) => name)).toEqual([
      ...result.streams.map(({ channel }) => `stream/${channel}`),
      'means/total.ac_power_W',
    ]);
    even.forEach(({ values }, k) => {
      const own = before.even[k]!.values;
      const level = (Math.max(...own) - Math.min(...own)) / 4094;
      values.forEach((value, j) => {
        expect(Math.abs(value - own[j]!)).toBeLessThanOrEqual(0.51 * level);
      });
    });
  });

  it('is less than a tenth of the recording, gzipped', () => {
    const { recording } = result;
    const whole = 12 * recording.bucketCount * channels.length;
    expect(gzipSync(packed().bytes).length).toBeLessThan(whole / 10);
  });

  it('tells what is no number as such', () => {
    const channel: Channel = { id: 'x.voltage_V', kind: 'node-voltage', owner: 'x', unit: 'V' };
    const odd = Float32Array.of(1, Number.NaN, Number.POSITIVE_INFINITY, 2);
    const recording: Recording = {
      channels: [channel],
      bucketCount: 4,
      edges_s: Float64Array.of(0, 1, 2, 3, 4),
      min: [odd],
      max: [odd],
      mean: [odd],
      closeUps: [],
    };
    const back = unpackPicture(packed({ ...bucketsOf(recording), recording }), [channel]).recording;
    expect([...back.min[0]!].map(Number.isFinite)).toEqual([true, false, false, true]);
    expect([...back.max[0]!].map(Number.isFinite)).toEqual([true, false, false, true]);
  });

  it('of a stretch hours into a run is as exact as of its beginning', () => {
    const late_s = 5 * 3600;
    const later = (times_s: Float64Array): Float64Array => times_s.map((t) => late_s + t);
    const recording = { ...before.recording, edges_s: later(before.recording.edges_s) };
    const closeUps = before.closeUps.map((one) => ({ ...one, time_s: later(one.time_s) }));
    const back = unpackPicture(packed({ ...before, recording, closeUps }), channels).recording;
    const ticks = (times_s: Float64Array): number[] => Array.from(times_s, (t) => Math.round(t / tick_s));
    expect(ticks(back.edges_s)).toEqual(ticks(recording.edges_s));
    back.closeUps.forEach(({ time_s, values }, k) => {
      expect(ticks(time_s)).toEqual(ticks(closeUps[k]!.time_s));
      // As many levels off as where the run begins.
      const reach = Math.max(...values[0]!) - Math.min(...values[0]!);
      values[0]!.forEach((value, m) => {
        expect(Math.abs(value - after.closeUps[k]!.values[0]![m]!)).toBeLessThan(reach / 500);
      });
    });
  });

  it('that was cut is refused', () => {
    const { head, bytes } = packed();
    expect(() => unpackPicture({ head, bytes: bytes.slice(0, -2) }, channels)).toThrow(RangeError);
    expect(() => unpackPicture({ head: { ...head, scales: head.scales.slice(1) }, bytes }, channels)).toThrow(
      RangeError,
    );
  });
});

describe('remainders', () => {
  it('give columns of any levels back, whatever the steps', () => {
    const random = (k: number): number => Math.floor(65_536 * Math.abs((Math.sin(k) * 43_758.5453) % 1));
    const columns = [0, 1, 2].map((c) => Uint16Array.from({ length: 500 }, (_, k) => random(500 * c + k)));
    const even = Uint16Array.from({ length: 500 }, (_, k) => 3 * k);
    for (const steps of [null, stepsOf(Float64Array.from({ length: 500 }, (_, k) => k * k))]) {
      const told: number[] = [];
      fold([...columns, even, even], steps, (value) => told.push(value));
      expect(Math.max(...told)).toBeLessThan(65_536);
      const taken = told.values();
      expect(unfold(5, 500, steps, () => taken.next().value!)).toEqual([...columns, even, even]);
    }
  });

  it('leave nothing of a straight line over uneven steps', () => {
    const time_s = Float64Array.from({ length: 100 }, (_, k) => (k < 50 ? k : 50 + 2 * (k - 50)));
    const levels = Uint16Array.from(time_s, (t) => 5 * t);
    const told: number[] = [];
    fold([levels], stepsOf(time_s), (value) => told.push(value));
    expect(told.filter((value) => value !== 0)).toHaveLength(2);
  });
});

describe('fewer values', () => {
  it('joins buckets: extremes kept, means by width', () => {
    const recording = { ...result.recording, closeUps: [] };
    const half = coarser(recording, Math.floor(recording.bucketCount / 2));
    expect(half.bucketCount).toBe(Math.floor(recording.bucketCount / 2));
    expect(half.edges_s.at(-1)).toBe(recording.edges_s[recording.bucketCount]);
    expect(half.min[3]![7]).toBe(Math.min(recording.min[3]![14]!, recording.min[3]![15]!));
    expect(half.max[3]![7]).toBe(Math.max(recording.max[3]![14]!, recording.max[3]![15]!));
    const width = (b: number): number => recording.edges_s[b + 1]! - recording.edges_s[b]!;
    const mean =
      (width(14) * recording.mean[3]![14]! + width(15) * recording.mean[3]![15]!) / (width(14) + width(15));
    expect(half.mean[3]![7]).toBeCloseTo(mean, 4);
    const few = coarser(recording, 7);
    expect(few.edges_s).toHaveLength(8);
    expect(few.edges_s.at(-1)).toBe(recording.edges_s[recording.bucketCount]);
    expect(Math.min(...few.min[3]!)).toBe(Math.min(...recording.min[3]!));
    expect(Math.max(...few.max[3]!)).toBe(Math.max(...recording.max[3]!));
    const integral = (of: Recording): number =>
      of.mean[3]!.reduce((sum, value, b) => sum + value * (of.edges_s[b + 1]! - of.edges_s[b]!), 0);
    expect(integral(few) / integral(recording)).toBeCloseTo(1, 6);
  });

  it('joins what a close-up shows, and never across its ends', () => {
    const { recording } = result;
    const [from_s, to_s] = [recording.edges_s[10]!, recording.edges_s[30]!];
    const time_s = Float64Array.of(from_s, (from_s + to_s) / 2, to_s);
    const closeUps = [{ time_s, values: recording.channels.map(() => new Float32Array(3)) }];
    const { edges_s } = coarser({ ...recording, closeUps }, 50);
    const at = edges_s.indexOf(from_s);
    expect(at).toBeGreaterThan(0);
    expect(edges_s[at + 1]).toBe(to_s);
    expect(edges_s.at(-1)).toBe(recording.edges_s[recording.bucketCount]);
  });

  it('leaves out of a close-up what straight lines give, and nothing else', () => {
    const channels: readonly Channel[] = [
      { id: 'x.voltage_V', kind: 'node-voltage', owner: 'x', unit: 'V' },
      { id: 'tie.current_A', kind: 'bar-current', owner: 'tie', unit: 'A' },
    ];
    const time_s = Float64Array.from({ length: 400 }, (_, k) => k * 1e-5);
    const values = [
      Float32Array.from(time_s, (t) => (t < 1e-3 ? 50 : 49 + Math.exp(-(t - 1e-3) / 5e-4))),
      Float32Array.from(time_s, (_, k) => (k === 300 ? 7 : 0)),
    ];
    const { lines, straight_ratio } = thinned({ channels, closeUps: [{ time_s, values }] });
    const [{ kept: [voltage, current] = [], ...fewer } = { time_s: time_s.subarray(0, 0), values: [] }] =
      lines;
    expect(straight_ratio).toBe(1e-3);
    expect(voltage!.length).toBeLessThan(100);
    // The single odd step is still there, and of the current nothing else.
    expect(current!.map((k) => fewer.values[1]![k])).toEqual([0, 0, 7, 0, 0]);
    expect(fewer.time_s.length).toBeLessThanOrEqual(voltage!.length + 3);
    const line = scaleLinear(
      voltage!.map((k) => fewer.time_s[k]!),
      voltage!.map((k) => fewer.values[0]![k]!),
    );
    time_s.forEach((t, k) => {
      expect(Math.abs(line(t) - values[0]![k]!)).toBeLessThan(1.01e-3);
    });
  });

  it('has as many buckets for a minute as the strip has room, four times as many for half an hour', () => {
    expect(bucketsFor(60)).toBe(1280);
    expect(bucketsFor(1800)).toBe(5120);
  });
});
