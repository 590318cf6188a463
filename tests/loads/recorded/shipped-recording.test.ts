import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { cleanedCsv } from '../../../src/loads/recorded/cleaned-csv.ts';
import { knownHow } from '../../../src/loads/recorded/known-how.ts';
import { plainReading, readRecorded } from '../../../src/loads/recorded/read-recorded.ts';
import { scaleRecorded } from '../../../src/loads/recorded/scale-recorded.ts';
import { contextOf } from '../context.ts';

const file = new URL('../../../scenarios/loads/training-two-accelerators-50hz.csv', import.meta.url);
const text = readFileSync(file, 'utf8');
const sha256 = createHash('sha256').update(text).digest('hex');
const load = readRecorded(text, { file: 'training', sha256 });

/** Energy of each device by a trapezoid written here, from the raw rows [J]. */
function plainTrapezoid(): number[] {
  const last = new Map<string, { readonly us: number; readonly mW: number }>();
  const energy = new Map<string, number>();
  for (const row of text.trim().split('\n').slice(1)) {
    const [us, device, mW] = row.split(',') as [string, string, string];
    const before = last.get(device);
    if (before !== undefined) {
      const joule = ((Number(us) - before.us) * (Number(mW) + before.mW)) / 2e9;
      energy.set(device, (energy.get(device) ?? 0) + joule);
    }
    last.set(device, { us: Number(us), mW: Number(mW) });
  }
  return ['0', '1'].map((device) => energy.get(device)!);
}

describe('the shipped recording', () => {
  const s = load.statement;

  test('has the energy of a plain trapezoid over its rows, each device and both together', () => {
    const truth = plainTrapezoid();
    for (const [i, channel] of s.channels.entries()) {
      expect(Math.abs(channel.energy_J / truth[i]! - 1)).toBeLessThan(1e-9);
    }
    // Both devices start and end within 9 ms of each other; the sum covers what they share.
    expect(Math.abs(s.total.energy_J / (truth[0]! + truth[1]!) - 1)).toBeLessThan(1e-3);
  });

  test('is what its README says', () => {
    expect(s).toMatchObject({
      rows: 16923,
      unsorted_count: 334,
      duplicates_count: 0,
      gaps_count: 0,
      start: '2026-11-25T07:29:03.860052Z',
    });
    expect(s.channels.map((c) => [c.name, c.samples])).toEqual([
      ['0', 8467],
      ['1', 8456],
    ]);
    expect(s.duration_s).toBeCloseTo(169.572, 3);
    expect(s.bandwidth_Hz).toBeCloseTo(22.0, 1);
    expect([s.channels[0]!.min_W, s.channels[0]!.max_W]).toEqual([70.866, 961.996]);
  });

  test('written clean reads back the same, with nothing left to edit but the sum', () => {
    const again = readRecorded(cleanedCsv(load, knownHow(s, plainReading, [])), { file: 'training', sha256 });
    expect(again.statement.channels).toEqual(s.channels);
    expect(again.statement.total).toEqual(s.total);
    expect(again.total).toEqual(load.total);
    expect(again.statement.start).toBe(s.start);
    expect(again.statement.edits.map((e) => e.what)).toEqual([s.edits.at(-1)!.what]);
  });

  /** Spans of at least 0.2 s in which both devices together stay below 500 W, a third of their busy power. */
  function idleSpans(from_s: number, to_s: number): (readonly [from_s: number, to_s: number])[] {
    const spans: (readonly [number, number])[] = [];
    let start: number | null = null;
    for (const [i, t] of load.total.time_s.entries()) {
      if (t < from_s || t > to_s) continue;
      if (load.total.power_W[i]! < 500) start ??= t;
      else if (start !== null) {
        if (t - start >= 0.2) spans.push([start, t]);
        start = null;
      }
    }
    if (start !== null) spans.push([start, to_s]);
    return spans;
  }
  const rounded = (spans: ReturnType<typeof idleSpans>) =>
    spans.map((span) => span.map((t) => Number(t.toFixed(1))));

  test('is idle where its README says', () => {
    expect(rounded(idleSpans(24.3, 170))).toEqual([
      [60.7, 70.5],
      [92.8, 93.4],
      [109.7, 119],
      [155.5, 170],
    ]);
  });

  test('has no idle gap in the stretch of recorded-training and one in that of recorded-checkpoint', () => {
    expect(idleSpans(26, 60)).toEqual([]);
    expect(rounded(idleSpans(54, 84))).toEqual([[60.7, 70.5]]);
  });

  test('gives both scenarios the same scale', () => {
    const spec = { kind: 'recorded', file: '', reading: plainReading } as const;
    const training = {
      ...spec,
      from_s: 26,
      to_s: 60,
      peak_W: 300e3,
      scale_ratio: null,
      edges: 'smooth',
      edge_s: 0.005,
      loop: false,
    } as const;
    const { scale_ratio, demand } = scaleRecorded(load, training, contextOf({ duration_s: 34 }));
    expect(scale_ratio).toBeCloseTo(165.162, 3);
    expect(demand.peak_W).toBeCloseTo(300e3, 6);
    expect(demand.rounding_s).toBeLessThanOrEqual(0.125e-6);
  });
});
