/** The box between the points of a map, over regions whose edge is known; nothing is simulated. */
import { describe, expect, it } from 'vitest';
import { readQuantity } from '../../../src/base/quantity.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { usualAcceptance } from '../../../src/studies/gains/accept.ts';
import { AskedPoints } from '../../../src/studies/gains/asked-points.ts';
import type { GainsAxis } from '../../../src/studies/gains/axis.ts';
import { empty, type GainsCell } from '../../../src/studies/gains/cell.ts';
import { ofSamples } from '../../../src/studies/gains/circumstances.ts';
import { withFinerBox } from '../../../src/studies/gains/finer-box.ts';
import { inCircumstances } from '../../../src/studies/gains/in-circumstances.ts';
import { mapOf } from '../../../src/studies/gains/map.ts';
import type { GainsPlan } from '../../../src/studies/gains/plan.ts';
import type { RunTrials } from '../../../src/studies/trials/trial.ts';

type Region = (x: number, y: number, sample: number | null) => boolean;

const axis = (path: string, from: number, to: number, step = 0): GainsAxis => {
  const numbers = Array.from({ length: 12 }, (_, k) =>
    Number((from + ((to - from) * k) / 11).toPrecision(3)),
  );
  return { path, values: numbers.map((value) => `${value} s`), numbers, unit: 'time', scale: 'even', step };
};
const axes = [axis('a', 1, 12), axis('b', 10, 230)] as const;

const good: GainsCell = {
  ...empty(''),
  ...{ stable: true, reason: null, damping_ratio: 1, damping_fast_ratio: 1, clearance_ratio: 1 },
  ...{ settling_s: 0, overshoot_ratio: 0, steady_error_ratio: 0 },
};

function planOf(samples: number): GainsPlan {
  const places = axes[0].values.flatMap((_, x) => axes[1].values.map((__, y) => [x, y] as const));
  const drawn = Array.from({ length: samples }, (_, k): Change[] => [{ path: 'sample', value: String(k) }]);
  return {
    asked: { scenario: 'none', changes: [] },
    axes,
    places,
    acceptance: usualAcceptance,
    load_W: 0,
    circumstances: ofSamples({ seed: 1, drawn: [], samples: drawn }, 0),
  } as unknown as GainsPlan;
}

function over(region: Region, samples = 0) {
  let asked = 0;
  const run = (async (trials: readonly { readonly changes: readonly Change[] }[]) =>
    trials.map(({ changes }) => {
      asked++;
      const valueAt = (path: string): string | undefined => changes.find((one) => one.path === path)?.value;
      const seconds = (path: string): number => {
        const reading = readQuantity(valueAt(path)!, 'time');
        return reading.ok ? reading.value : Number.NaN;
      };
      const sample = valueAt('sample');
      return region(seconds('a'), seconds('b'), sample === undefined ? null : Number(sample))
        ? good
        : empty('not there');
    })) as unknown as RunTrials;
  const plan = planOf(samples);
  const points = new AskedPoints(plan, run);
  const cells = plan.places.map(([x, y]) =>
    region(axes[0].numbers[x]!, axes[1].numbers[y]!, null) ? good : empty('not there'),
  );
  return {
    made: inCircumstances(plan, mapOf(plan, cells), points).then((map) => withFinerBox(map, points)),
    asked: () => asked,
  };
}

const regions: Readonly<Record<string, Region>> = {
  'a disk': (x, y) => Math.hypot((x - 6.3) / 4.4, (y - 117) / 83) < 1,
  'a wedge': (x, y) => y < 20 * x && y > 5 * x && x < 9.7,
  'two bands with a gap between the points': (x, y) =>
    x > 2.2 && x < 9.4 && y > 30 && Math.abs(x - 5.75) > 0.2,
  'less with some samples': (x, y, sample) =>
    Math.hypot((x - 6.3) / 4.4, (y - 117) / 83) < (sample === 3 ? 0.7 : 1),
};

describe('the box between the points of a map', () => {
  it.each(Object.keys(regions))(
    'over %s holds nothing that fails, and beyond each face something does',
    async (name) => {
      const region = regions[name]!;
      const samples = name.startsWith('less') ? 5 : 0;
      const holds = (x: number, y: number): boolean =>
        region(x, y, null) && Array.from({ length: samples }, (_, k) => region(x, y, k)).every(Boolean);
      const { made, asked } = over(region, samples);
      const { box } = (await made).recommended!;
      const [a, b] = box.sides;
      const within = ({ low, high }: typeof a, share: number): number =>
        low.value + share * (high.value - low.value);
      const shares = Array.from({ length: 21 }, (_, k) => k / 20);
      const bad = shares.flatMap((s) => shares.filter((t) => !holds(within(a, s), within(b, t))));
      expect(bad).toEqual([]);
      const inside = axes.map(
        ({ numbers }, k) =>
          numbers.filter((n) => n >= box.sides[k]!.low.value && n <= box.sides[k]!.high.value).length,
      );
      expect(box.points).toBe(inside[0]! * inside[1]!);
      expect(box.between).toBeGreaterThan(30);
      for (const [k, side] of box.sides.entries()) {
        for (const [face, out] of [
          [side.low, 0.95],
          [side.high, 1.05],
        ] as const) {
          if (face.fails === null) continue;
          const other = readQuantity(face.fails[1 - k]!.value, 'time');
          const beyond = out * face.value;
          const along = [...shares.map((s) => within(box.sides[1 - k]!, s)), other.ok ? other.value : 0];
          expect(along.some((value) => !(k === 0 ? holds(beyond, value) : holds(value, beyond)))).toBe(true);
        }
      }
      expect(asked()).toBeLessThan(samples === 0 ? 300 : 1500);
    },
  );

  it('names the sample with which a point is not acceptable', async () => {
    const { made } = over(regions['less with some samples']!, 5);
    const { cells } = await made;
    const failing = cells.filter(({ fails_in }) => fails_in !== null);
    expect(failing.length).toBeGreaterThan(10);
    expect(new Set(failing.map(({ fails_in }) => fails_in))).toEqual(new Set(['sample 4']));
    expect(failing[0]!.lacks).toBe('not there (sample 4)');
  });
});
