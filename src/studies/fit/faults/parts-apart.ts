/**
 * Where the parts of a measurement would lie if its stamps were at fault: a stretch of time that is missing inside it
 * while stamps go on, as where two files were joined, or a channel whose readings come before or behind the others. The
 * parts on either side of every moment, and each channel against the rest, are laid on the model at the places that suit
 * them best, by levels of their own, and by those of the whole, for along a slow curve a shift is a level. Whether that is the fault is weighed elsewhere, beside others (`weigh.ts`).
 */
import type { Residuals } from '../residuals.ts';
import {
  allOf,
  type Laid,
  leftIn,
  moments,
  momentsInside,
  others,
  sumsOf,
  totalOf,
  unlaid,
} from './laid-parts.ts';

interface Shifted {
  /** The first part, or the other channels, lie so much later than they were placed [s]. */
  readonly first_s: number;
  /** So much later than these; negative: earlier [s]. */
  readonly later_s: number;
}

export type PartsApart =
  /** `from_s`: time of the run from which the measurement lies elsewhere; `moment_s`: from one that was tried to the next. */
  | (Shifted & { readonly kind: 'time lost'; readonly from_s: number; readonly moment_s: number })
  | (Shifted & { readonly kind: 'delay'; readonly channel: number });

/** Places looked at, a quarter of an interval apart; not farther than a quarter of the measurement. */
const mostPlaces = 800;
const farthest = 0.25;

/**
 * The moment and the shift that leave least, and the best shift of each channel. `simulatedAt`: what the sensors show at
 * the points when the measurement lies so much later [s].
 */
export function partsApart(
  { points, noise }: Pick<Residuals, 'points' | 'noise'>,
  interval_s: number,
  simulatedAt: (later_s: number) => Float64Array,
): PartsApart[] {
  const times = points.map(({ time_s }) => time_s);
  const first_s = times.reduce((least, t) => Math.min(least, t), Number.POSITIVE_INFINITY);
  const length_s = times.reduce((most, t) => Math.max(most, t), Number.NEGATIVE_INFINITY) - first_s;
  const step_s = Math.max(interval_s / 4, (2 * farthest * length_s) / mostPlaces);
  const half = Math.floor((farthest * length_s) / step_s);
  const layEverywhere = (parts: readonly Laid[], otherwise: Float64Array | null): void => {
    for (let k = -half; k <= half; k++) {
      const simulated = simulatedAt(k * step_s).map((s, i) => (Number.isNaN(s) ? (otherwise?.[i] ?? s) : s));
      const sums = noise.map((deviation, c) =>
        sumsOf(points, simulated, { c, deviation, first_s, length_s }),
      );
      for (const laid of parts) {
        const left = leftIn(sums, laid);
        if (left < laid.left) [laid.left, laid.later_s] = [left, k * step_s];
      }
    }
  };
  const whole = unlaid(allOf(noise));
  layEverywhere([whole], null);
  const atWhole = simulatedAt(whole.later_s);
  const levels = noise.map((deviation, c) => {
    const { d, n } = sumsOf(points, atWhole, { c, deviation, first_s, length_s });
    return n[moments]! === 0 ? 0 : d[moments]! / n[moments]!;
  });
  const [ownLevels, commonLevels] = [null, levels].map((known) =>
    momentsInside().map((b) => [
      unlaid({ ...allOf(noise), to: b }, known),
      unlaid({ ...allOf(noise), from: b }, known),
    ]),
  );
  const channels =
    noise.length < 2
      ? []
      : noise.map((_, c) => [unlaid(others(noise, c)), unlaid({ ...allOf(noise), channels: [c] })]);
  // A sample that leaves the run by a shift counts as at the best place of the whole: leaving explains nothing.
  layEverywhere([...ownLevels!, ...commonLevels!, ...channels].flat(), atWhole);
  const best = [ownLevels!, commonLevels!].map((divided) =>
    divided.reduce((a, b) => (totalOf(b) < totalOf(a) ? b : a)),
  );
  const shifts = [...best, ...channels].map(([one, other]) => {
    return { first_s: one!.later_s, later_s: other!.later_s - one!.later_s, part: other!.part };
  });
  return shifts
    .filter(({ later_s }) => Math.abs(later_s) >= interval_s / 2)
    .map(({ part: { from, channels }, ...shift }) =>
      from > 0
        ? {
            kind: 'time lost',
            from_s: first_s + (from / moments) * length_s,
            moment_s: length_s / moments,
            ...shift,
          }
        : { kind: 'delay', channel: channels[0]!, ...shift },
    );
}
