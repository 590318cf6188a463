import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnMeans, makeOutline, outline, type Stretch } from '../../web/columns.ts';

interface Trace {
  readonly edges_s: Float64Array;
  readonly moments_s: Float64Array;
  readonly min: Float32Array;
  readonly max: Float32Array;
  readonly mean: Float32Array;
}

/** Uneven buckets with any values: widths over five decades, so that some are merged and some stand alone. */
const traces = fc
  .array(
    fc.record({
      width: fc.integer({ min: 0, max: 5 }).map((d) => 10 ** -d),
      low: fc.float({ min: -1000, max: 1000, noNaN: true }),
      size: fc.float({ min: 0, max: 100, noNaN: true }),
    }),
    { minLength: 1, maxLength: 400 },
  )
  .map((buckets): Trace => {
    const edges_s = new Float64Array(buckets.length + 1);
    buckets.forEach(({ width }, b) => {
      edges_s[b + 1] = edges_s[b]! + width;
    });
    const min = Float32Array.from(buckets, ({ low }) => low);
    const max = Float32Array.from(buckets, ({ low, size }) => low + size);
    const mean = min.map((low, b) => low + 0.25 * (max[b]! - low));
    return { edges_s, moments_s: new Float64Array(min.length).fill(Number.NaN), min, max, mean };
  });

function whole({ edges_s, min }: Trace, width: number): Stretch {
  return { from_s: 0, to_s: edges_s.at(-1)!, width, firstBucket: 0, lastBucket: min.length - 1 };
}

describe('outline()', () => {
  it('encloses smallest and largest value of every bucket within a pixel of where it lies', () => {
    fc.assert(
      fc.property(traces, fc.integer({ min: 20, max: 500 }), (trace, width) => {
        const out = makeOutline(width);
        const stretch = whole(trace, width);
        outline(out, trace, trace, stretch);
        const scale = width / stretch.to_s;
        for (let b = 0; b < trace.min.length; b += 1) {
          const left = trace.edges_s[b]! * scale;
          const right = trace.edges_s[b + 1]! * scale;
          let enclosed = false;
          for (let k = 0; k < out.count && !enclosed; k += 1) {
            const near = out.x[k]! >= left - 1 && out.x[k]! <= right + 1;
            enclosed = near && out.low[k]! <= trace.min[b]! && out.high[k]! >= trace.max[b]!;
          }
          expect(enclosed, `bucket ${b}`).toBe(true);
        }
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it('never runs out of room, and x never goes back', () => {
    fc.assert(
      fc.property(traces, fc.integer({ min: 20, max: 500 }), (trace, width) => {
        const out = makeOutline(width);
        outline(out, trace, trace, whole(trace, width));
        expect(out.count).toBeLessThanOrEqual(out.x.length);
        for (let k = 1; k < out.count; k += 1) expect(out.x[k]!).toBeGreaterThanOrEqual(out.x[k - 1]! - 1);
      }),
      { seed: 9, numRuns: 200 },
    );
  });

  it('invents nothing: no point lies outside the values of the trace', () => {
    fc.assert(
      fc.property(traces, (trace) => {
        const out = makeOutline(100);
        outline(out, trace, trace, whole(trace, 100));
        expect(Math.min(...out.low.subarray(0, out.count))).toBe(Math.min(...trace.min));
        expect(Math.max(...out.high.subarray(0, out.count))).toBe(Math.max(...trace.max));
      }),
      { seed: 10, numRuns: 200 },
    );
  });
});

describe('outline() of moments', () => {
  it('puts a point where each moment is, however wide its bucket', () => {
    const out = makeOutline(100);
    const buckets = { edges_s: Float64Array.of(0, 2, 6, 8), moments_s: Float64Array.of(0.5, 3, 8) };
    const value = Float32Array.of(1, 2, 3);
    outline(
      out,
      buckets,
      { min: value, max: value },
      { from_s: 0, to_s: 8, width: 80, firstBucket: 0, lastBucket: 2 },
    );
    expect([...out.x.subarray(0, out.count)]).toEqual([5, 30, 80]);
    expect([...out.low.subarray(0, out.count)]).toEqual([1, 2, 3]);
    expect([...out.wide.subarray(0, out.count)]).toEqual([0, 0, 0]);
  });
});

describe('columnMeans()', () => {
  it('keeps the time integral of the means', () => {
    fc.assert(
      fc.property(traces, fc.integer({ min: 20, max: 500 }), (trace, width) => {
        const out = new Float64Array(width);
        const stretch = whole(trace, width);
        columnMeans(out, trace, trace, stretch);
        const drawn = (out.reduce((sum, mean) => sum + mean, 0) * stretch.to_s) / width;
        let exact = 0;
        let size = 0;
        for (let b = 0; b < trace.min.length; b += 1) {
          const area = (trace.edges_s[b + 1]! - trace.edges_s[b]!) * trace.mean[b]!;
          exact += area;
          size += Math.abs(area);
        }
        // Sums of the same areas in another order: rounding only.
        expect(Math.abs(drawn - exact)).toBeLessThanOrEqual(1e-9 * (size + 1e-3));
      }),
      { seed: 11, numRuns: 200 },
    );
  });
});
