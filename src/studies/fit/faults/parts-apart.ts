/**
 * Where the parts of a measurement would lie if its stamps were at fault: a stretch of time that is missing inside it
 * while stamps go on, as where two files were joined, or a channel whose readings come before or behind the others. The
 * parts on either side of every moment, and each channel against the rest, are laid on the model at the places that suit
 * them best, by levels of their own, and by those of the whole, for along a slow curve a shift is a level. Whether that is the fault is weighed elsewhere, beside others (`weigh.ts`).
 */
import type { Residuals } from '../residuals.ts';

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
/** Moments at which the measurement is divided, and the least part on either side. */
const moments = 60;
const leastPart = 0.1;

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

/** Channels between two moments. */
interface Part {
  readonly channels: readonly number[];
  readonly from: number;
  readonly to: number;
}

/** A part where it leaves least. */
interface Laid {
  readonly part: Part;
  /** Of each channel over its noise; null: its own. */
  readonly levels: readonly number[] | null;
  left: number;
  later_s: number;
}

function unlaid(part: Part, levels: Laid['levels'] = null): Laid {
  return { part, levels, left: Number.POSITIVE_INFINITY, later_s: 0 };
}

function allOf(noise: readonly number[]): Part {
  return { channels: noise.map((_, c) => c), from: 0, to: moments };
}

function others(noise: readonly number[], c: number): Part {
  const { channels, ...between } = allOf(noise);
  return { channels: channels.filter((k) => k !== c), ...between };
}

function momentsInside(): number[] {
  const first = Math.ceil(leastPart * moments);
  return Array.from({ length: moments - 2 * first + 1 }, (_, k) => first + k);
}

function totalOf(laid: readonly Laid[]): number {
  return laid.reduce((sum, { left }) => sum + left, 0);
}

/** Sums over the samples before each moment: all of them; those that lie within the run, their d and d². */
interface Sums {
  readonly all: Float64Array;
  readonly n: Float64Array;
  readonly d: Float64Array;
  readonly dd: Float64Array;
}

interface Divided {
  readonly c: number;
  readonly deviation: number;
  readonly first_s: number;
  readonly length_s: number;
}

function sumsOf(
  points: Residuals['points'],
  simulated: Float64Array,
  { c, deviation, first_s, length_s }: Divided,
): Sums {
  const empty = (): Float64Array => new Float64Array(moments + 1);
  const sums: Sums = { all: empty(), n: empty(), d: empty(), dd: empty() };
  points.forEach(({ channel, time_s, value }, i) => {
    if (channel !== c) return;
    const part = Math.min(moments, 1 + Math.floor((moments * (time_s - first_s)) / length_s));
    sums.all[part]! += 1;
    if (Number.isNaN(simulated[i]!)) return;
    const d = (value - simulated[i]!) / deviation;
    sums.n[part]! += 1;
    sums.d[part]! += d;
    sums.dd[part]! += d * d;
  });
  for (const sum of [sums.all, sums.n, sums.d, sums.dd])
    for (let b = 1; b <= moments; b++) sum[b]! += sum[b - 1]!;
  return sums;
}

/** Σ of squares about the level of each channel, as if all samples lay within the run; half must. */
function leftIn(sums: readonly Sums[], { part: { channels, from, to }, levels }: Laid): number {
  let left = 0;
  for (const c of channels) {
    const { all, n, d, dd } = sums[c]!;
    const [there, count] = [all[to]! - all[from]!, n[to]! - n[from]!];
    if (there === 0) continue;
    if (count < there / 2) return Number.POSITIVE_INFINITY;
    const sum = d[to]! - d[from]!;
    const level = levels?.[c] ?? sum / count;
    // Σ(d − L)².
    left += (Math.max(0, dd[to]! - dd[from]! - 2 * level * sum + level * level * count) * there) / count;
  }
  return left;
}
