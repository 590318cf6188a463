/** The picture of a run: small, no spike lost, times exact, values within what is stated in picture.md. */
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../src/channels/channel.ts';
import type { CloseUp, Recording } from '../../src/engine/result.ts';
import { coarser } from '../../src/picture/coarser.ts';
import { byKind } from '../../src/picture/kinds.ts';
import { bucketsFor, packPicture, pictureOf, unpackPicture } from '../../src/picture/picture.ts';
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
    before.recording.closeUps.forEach(({ time_s }, k) => {
      expect(after.closeUps[k]!.time_s).toEqual(time_s.map((t) => Math.round(t / tick_s) * tick_s));
    });
  });

  it('loses no spike: smallest values are never raised, largest never lowered, by more than single precision', () => {
    for (const places of byKind(channels)) {
      const all = places.flatMap((c) => [...before.recording.min[c]!, ...before.recording.max[c]!]);
      const level = (Math.max(...all) - Math.min(...all)) / 4094;
      const digit = 1e-7 * Math.max(...all.map(Math.abs));
      for (const c of places) {
        before.recording.min[c]!.forEach((value, b) => {
          expect(after.min[c]![b]! - value).toBeLessThanOrEqual(digit);
          expect(value - after.min[c]![b]!).toBeLessThanOrEqual(level + digit);
        });
        before.recording.max[c]!.forEach((value, b) => {
          expect(value - after.max[c]![b]!).toBeLessThanOrEqual(digit);
          expect(after.max[c]![b]! - value).toBeLessThanOrEqual(level + digit);
        });
        before.recording.mean[c]!.forEach((value, b) => {
          const reach = after.max[c]![b]! - after.min[c]![b]!;
          expect(Math.abs(after.mean[c]![b]! - value)).toBeLessThanOrEqual(reach / 63 + 2 * level + digit);
        });
      }
    }
  });

  it('keeps close-ups within half a level of their own range', () => {
    before.recording.closeUps.forEach(({ values }, k) => {
      for (const places of byKind(channels)) {
        const all = places.flatMap((c) => [...values[c]!]);
        const level = (Math.max(...all) - Math.min(...all)) / 2046;
        const digit = 1e-7 * Math.max(...all.map(Math.abs));
        for (const c of places)
          values[c]!.forEach((value, m) => {
            const off = Math.abs(after.closeUps[k]!.values[c]![m]! - value);
            expect(off).toBeLessThanOrEqual(0.5001 * level + digit);
          });
      }
    });
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
    const back = unpackPicture(packed({ recording, even: [] }), [channel]).recording;
    expect([...back.min[0]!].map(Number.isFinite)).toEqual([true, false, false, true]);
    expect([...back.max[0]!].map(Number.isFinite)).toEqual([true, false, false, true]);
  });

  it('of a stretch hours into a run is as exact as of its beginning', () => {
    const late_s = 5 * 3600;
    const later = (times_s: Float64Array): Float64Array => times_s.map((t) => late_s + t);
    const recording: Recording = {
      ...before.recording,
      edges_s: later(before.recording.edges_s),
      closeUps: before.recording.closeUps.map(({ time_s, values }) => ({ time_s: later(time_s), values })),
    };
    const back = unpackPicture(packed({ recording, even: [] }), channels).recording;
    const ticks = (times_s: Float64Array): number[] => Array.from(times_s, (t) => Math.round(t / tick_s));
    expect(ticks(back.edges_s)).toEqual(ticks(recording.edges_s));
    back.closeUps.forEach(({ time_s, values }, k) => {
      expect(ticks(time_s)).toEqual(ticks(recording.closeUps[k]!.time_s));
      // As many levels off as where the run begins.
      const reach = Math.max(...values[0]!) - Math.min(...values[0]!);
      values[0]!.forEach((value, m) => {
        expect(Math.abs(value - recording.closeUps[k]!.values[0]![m]!)).toBeLessThan(reach / 500);
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
    const whole: CloseUp = { time_s, values };
    const [fewer] = thinned({ ...result.recording, channels, closeUps: [whole] });
    expect(fewer!.time_s.length).toBeLessThan(100);
    // The single odd step is still there, and lines between what is left stay within 0.1 % of the range.
    expect(fewer!.values[1]).toContain(7);
    let at = 0;
    time_s.forEach((t, k) => {
      while (fewer!.time_s[at + 1]! < t) at++;
      const [a, b] = [fewer!.time_s[at]!, fewer!.time_s[at + 1] ?? t];
      const along = b > a ? (t - a) / (b - a) : 0;
      const [from, to] = [fewer!.values[0]![at]!, fewer!.values[0]![at + 1] ?? fewer!.values[0]![at]!];
      expect(Math.abs(from + along * (to - from) - values[0]![k]!)).toBeLessThan(1.05e-3);
    });
  });

  it('has as many buckets for a minute as the strip has room, four times as many for half an hour', () => {
    expect(bucketsFor(60)).toBe(1280);
    expect(bucketsFor(1800)).toBe(5120);
  });
});
