/**
 * Loops of a cabinet opened at elements that act alike, everything else closed: of a sampled law, and in the continuous plant.
 * Several shelves hunt in a direction, all together or one against another: a direction holds where what comes back has it too.
 */
import { logarithm } from '../../base/logarithm.ts';
import { tangent } from '../../base/sine.ts';
import { type Complex, magnitude, scaled, subtract } from '../complex.ts';
import { logFrequencies, loopGain } from '../curves.ts';
import { Hessenberg } from '../hessenberg.ts';
import type { LinearTask, Sampled } from '../sampled.ts';
import { answersAfter } from '../sampled-loop.ts';
import type { OpenedLoop } from './balance.ts';

/** A loop in one direction of several places. */
export interface DirectedLoop extends OpenedLoop {
  /** What comes back across the direction, over what comes back along it. */
  across_ratio(frequency_Hz: number): number;
}

const points = 240;

/** Of `weights` at places of z, right after a task has sampled or run. Slower tasks stand still. */
export function openedSampled(
  system: Sampled,
  task: LinearTask,
  kind: 'sample' | 'run',
  places: readonly number[],
  weights: readonly number[],
): DirectedLoop {
  const { size } = system;
  const row = new Float64Array(size);
  places.forEach((place, k) => {
    row[place] = weights[k]!;
  });
  const singles = places.map((place) => new Float64Array(size).fill(1, place, place + 1));
  const { period_s, map, closed } = answersAfter(system, task, kind, [row, ...singles]);
  const rate_Hz = 1 / period_s;
  // M (I + (N − 1) p pᵀ/|p|²): what the element gives is N times what it gets.
  const read = row.map((a) => a / squareOf(weights));
  const pushed = Float64Array.from({ length: size }, (_, i) =>
    row.reduce((sum, a, j) => sum + map[i * size + j]! * a, 0),
  );
  const along = (frequency_Hz: number): Complex => closed(frequency_Hz)[0]![0]!;
  return {
    period_s,
    over_Hz: logFrequencies(1e-3 * rate_Hz, 0.4999 * rate_Hz, points),
    at: (frequency_Hz) => loopGain(along(frequency_Hz)),
    standing: along(1e-7 * rate_Hz).re,
    across_ratio(frequency_Hz) {
      const [back, ...each] = closed(frequency_Hz).map((of) => of[0]!);
      return acrossOf(back!, each, weights);
    },
    growth(gain) {
      const values = new Hessenberg(withRank(map, size, pushed, read, gain - 1), size, false).eigenvalues();
      return Math.max(...values.map((value) => logarithm(Math.max(1e-300, magnitude(value))))) / period_s;
    },
  };
}

/** A place of the plant: how what an element gives moves the slopes of its states, and what the element is given. */
export interface PlantPlace {
  readonly push: Float64Array;
  readonly read: Float64Array;
}

/** Of `weights` at places of the plant, the commands of all firmware held. */
export function openedPlant(
  { plant, tick_s, rungTicks }: Sampled,
  places: readonly PlantPlace[],
  weights: readonly number[],
): DirectedLoop {
  const { A, n } = plant;
  const sumOf = (of: (place: PlantPlace) => Float64Array): Float64Array =>
    Float64Array.from({ length: n }, (_, i) =>
      places.reduce((sum, place, k) => sum + weights[k]! * of(place)[i]!, 0),
    );
  const push = sumOf((place) => place.push);
  const read = sumOf((place) => place.read).map((a) => a / squareOf(weights));
  const H = new Hessenberg(A, n);
  const pushed = H.into(push);
  const readings = [read, ...places.map((place) => place.read)].map((row) => H.into(row));
  const h = rungTicks * tick_s;
  const closed = (frequency_Hz: number): Complex[] => {
    const side = { re: pushed.slice(), im: new Float64Array(n) };
    H.solve({ re: 0, im: (2 / h) * tangent(Math.PI * frequency_Hz * h) }, [side]);
    const seen = (row: Float64Array, x: Float64Array): number =>
      x.reduce((sum, value, k) => sum + value * row[k]!, 0);
    return readings.map((row) => ({ re: seen(row, side.re), im: seen(row, side.im) }));
  };
  return {
    period_s: null,
    over_Hz: logFrequencies(20, 5e4, points),
    at: (frequency_Hz) => loopGain(closed(frequency_Hz)[0]!),
    standing: closed(1e-3)[0]!.re,
    across_ratio(frequency_Hz) {
      const [back, ...each] = closed(frequency_Hz);
      return acrossOf(back!, each, weights);
    },
    growth(gain) {
      const values = new Hessenberg(withRank(A, n, push, read, gain - 1), n, false).eigenvalues();
      return Math.max(...values.map(({ re }) => re));
    },
  };
}

function squareOf(weights: readonly number[]): number {
  return weights.reduce((sum, a) => sum + a * a, 0);
}

function acrossOf(back: Complex, each: readonly Complex[], weights: readonly number[]): number {
  const across = each.reduce((sum, a, k) => sum + magnitude(subtract(a, scaled(back, weights[k]!))) ** 2, 0);
  return Math.sqrt(across / squareOf(weights)) / magnitude(back);
}

/** A + f b cᵀ. */
function withRank(A: Float64Array, n: number, b: Float64Array, c: Float64Array, f: number): Float64Array {
  const out = A.slice();
  for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) out[i * n + j]! += f * b[i]! * c[j]!;
  return out;
}
