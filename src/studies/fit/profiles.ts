import { Matrix } from 'ml-matrix';
import type { Confidence } from './confidence.ts';
import { type Profile, type ProfileCase, profileOf } from './profile.ts';
import { type Placed, sumOf } from './residuals.ts';

export interface Profiles {
  /** Of each value, of its box; null where there is none. */
  readonly profiles: readonly (Profile | null)[];
  /** The place would leave where it is looked for, while a value is still within its interval. */
  readonly open: boolean;
}

interface Best extends Pick<ProfileCase, 'values' | 'sum' | 'variance' | 'factor' | 'box'> {
  readonly left: Float64Array;
  readonly sensitivities: Matrix;
  /** What the clock leaves open of each value, half of an interval of its box. */
  readonly byClock: readonly number[];
}

/**
 * Profile intervals of all values that are bounded. Where the place is stopped, its value is no end of an interval. What
 * a run differs by from the best one, Δ, counts by Σ Δ² and, where the best stands at an end of its range, by its slope,
 * 2 (Jᵀe)·(v − v̂). The rest of 2 Σ e Δ is noise times the stairs of the simulation (`past-stairs.ts`).
 */
export async function profilesOf(
  best: Best,
  place: Placed,
  { halfWidths, following }: Pick<Confidence, 'halfWidths' | 'following'>,
  placedAt: (values: readonly number[]) => Promise<Placed>,
): Promise<Profiles> {
  const most = best.sum + best.factor ** 2 * best.variance;
  const uphill = best.sensitivities
    .transpose()
    .mmul(Matrix.columnVector([...best.left]))
    .to1DArray();
  let open = place.atEnd;
  const profiles: (Profile | null)[] = [];
  for (let j = 0; j < halfWidths.length; j++) {
    const half = halfWidths[j] ?? null;
    if (half === null || open) {
      profiles.push(null);
      continue;
    }
    let stopped = false;
    const sumAt = async (moved: readonly number[]): Promise<number> => {
      const placed = await placedAt(moved);
      const apart = sumOf(placed.left.map((e, i) => e - best.left[i]!));
      const grown =
        best.sum + apart + 2 * uphill.reduce((sum, g, k) => sum + g * (moved[k]! - best.values[k]!), 0);
      stopped ||= placed.atEnd && grown <= most;
      return grown;
    };
    const found = await profileOf({ ...best, following: (k) => following[k]!, sumAt }, j, half);
    open ||= stopped;
    const onGrid = (end: number): number =>
      best.box.snapped(best.values.map((value, k) => (k === j ? end : value)))[j]!;
    const [low, high] = withClock(found.ends, best.values[j]!, best.byClock[j]!);
    const ends = [onGrid(low), onGrid(high)] as const;
    profiles.push(stopped ? null : { ...found, ends });
  }
  return { profiles, open };
}

/** Noise and clock are independent: their squares add, as far as the box goes. */
function withClock([low, high]: Profile['ends'], value: number, byClock: number): Profile['ends'] {
  return [
    Math.max(0, value - Math.hypot(value - low, byClock)),
    Math.min(1, value + Math.hypot(high - value, byClock)),
  ];
}
