/** Close-ups in their places among the buckets of the run. */
import { describe, expect, it } from 'vitest';
import type { Recording } from '../../src/engine/result.ts';
import { makeRecord } from '../../web/record.ts';

const recording: Recording = {
  channels: [{ id: 'x.voltage_V', kind: 'node-voltage', owner: 'x', unit: 'V' }],
  bucketCount: 4,
  edges_s: Float64Array.of(0, 1, 2, 3, 4),
  min: [Float32Array.of(1, 2, 3, 4)],
  max: [Float32Array.of(10, 20, 30, 40)],
  mean: [Float32Array.of(5, 6, 7, 8)],
  closeUps: [
    { time_s: Float64Array.of(1.5, 2, 2.25), values: [Float32Array.of(50, 60, 70)] },
    { time_s: Float64Array.of(3, 3.5, 4), values: [Float32Array.of(80, 81, 82)] },
  ],
};

describe('a record with close-ups', () => {
  const record = makeRecord(recording);
  const { min, max, mean } = record.series('x.voltage_V')!;

  it('has a bucket for every moment inside a close-up and keeps what lies beside it', () => {
    expect([...record.edges_s]).toEqual([0, 1, 1.5, 1.75, 2.125, 2.25, 3, 3.25, 3.75, 4]);
    expect([...record.moments_s]).toEqual([Number.NaN, Number.NaN, 1.5, 2, 2.25, Number.NaN, 3, 3.5, 4]);
    expect([...min]).toEqual([1, 2, 50, 60, 70, 3, 80, 81, 82]);
    expect([...max]).toEqual([10, 20, 50, 60, 70, 30, 80, 81, 82]);
    expect([...mean]).toEqual([5, 6, 50, 60, 70, 7, 80, 81, 82]);
  });

  it('finds the bucket of a moment, and its value', () => {
    expect(record.bucketAt(2.01)).toBe(3);
    expect(record.mean('x.voltage_V', record.bucketAt(3.4))).toBe(81);
    expect(record.mean('y.voltage_V', 0)).toBeNaN();
  });

  it('is the run as it is where there is no close-up', () => {
    const plain = makeRecord({ ...recording, closeUps: [] });
    expect(plain.edges_s).toEqual(recording.edges_s);
    expect(plain.series('x.voltage_V')!.mean).toEqual(recording.mean[0]);
  });
});
