/** Faults of a recording that no parameter explains, each named: time that is missing, a channel apart, a clipped one. */
import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/loads/random.ts';
import { clippedAt } from '../../../src/studies/fit/clipped.ts';
import { partsApart } from '../../../src/studies/fit/faults/parts-apart.ts';

const interval_s = 0.001;
const count = 400;
/** No two stretches of it are alike. */
const wave = (t: number): number => 50 + Math.sin(2 * Math.PI * (10 + 60 * t) * t);

/** Two channels of the wave, each as if stamped so much later than it was. */
function fault(lateness: (channel: number, t: number) => number) {
  const random = new Random(5);
  const points = [0, 1].flatMap((channel) =>
    Array.from({ length: count }, (_, k) => {
      const time_s = 0.05 + k * interval_s;
      return {
        channel,
        row: k,
        time_s,
        value: wave(time_s + lateness(channel, time_s)) + 0.02 * random.gaussian(),
      };
    }),
  );
  return partsApart({ points, noise: [0.02, 0.02] }, interval_s, (later_s) =>
    Float64Array.from(points, ({ time_s }) => wave(time_s + later_s)),
  );
}

describe('partsApart()', () => {
  test('finds where a stretch is missing, and how long it is', () => {
    const [found] = fault((_, t) => (t < 0.25 ? 0 : 0.015));
    expect(found).toMatchObject({ kind: 'time lost', later_s: expect.closeTo(0.015, 3) });
    expect(found?.kind === 'time lost' && Math.abs(found.from_s - 0.25) < 0.01).toBe(true);
  });

  test('finds how far a channel is ahead of the other', () => {
    const found = fault((channel) => (channel === 0 ? 0.004 : 0));
    expect(found.find((one) => one.kind === 'delay' && one.channel === 0)).toMatchObject({
      later_s: expect.closeTo(0.004, 3),
    });
  });

  test('finds nothing apart where stamps are right', () => {
    expect(fault(() => 0)).toEqual([]);
  });
});

describe('clippedAt()', () => {
  const shown = Float64Array.from({ length: count }, (_, k) => wave(k * interval_s));

  test('finds readings that stand at an end while the simulated channel goes beyond', () => {
    expect(
      clippedAt(
        shown.map((v) => Math.min(v, 50.6)),
        shown,
        0.01,
      ),
    ).toMatchObject({ end: 'largest', at: 50.6 });
    expect(
      clippedAt(
        shown.map((v) => Math.max(v, 49.4)),
        shown,
        0.01,
      ),
    ).toMatchObject({ end: 'smallest', at: 49.4 });
  });

  test('takes neither a peak nor a coarse grid for it', () => {
    expect(clippedAt(shown, shown, 0.01)).toBeNull();
    expect(
      clippedAt(
        shown.map((v) => Math.round(v * 5) / 5),
        shown,
        0.01,
      ),
    ).toBeNull();
  });
});
