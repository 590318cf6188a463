/** Mean squares of a channel piece by piece: what a part warms up by while a run is not the same all along. */
import type { MeanSquare } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import { type Case, meanSquareOf } from './case.ts';
import { touches } from './spans.ts';

export interface SquarePiece extends Span {
  readonly rms: number;
}

/**
 * From the record's rounds, each of which has the mean square from its beginning to the window's end, q_k over T_k: between two
 * beginnings (q_k T_k − q_{k+1} T_{k+1})/(T_k − T_{k+1}). Empty where the channel has none.
 */
export function squareCourse(c: Case, channel: string): readonly SquarePiece[] {
  const whole = meanSquareOf(c.result, channel);
  if (whole === null) return [];
  const { from_s, to_s } = c.result.window;
  const begins: { readonly from_s: number; readonly square: MeanSquare }[] = [{ from_s, square: whole }];
  for (const { from_s: at_s, squares } of c.result.rounds) {
    const square = squares.find((one) => one.channel === channel);
    if (square !== undefined && at_s > begins.at(-1)!.from_s) begins.push({ from_s: at_s, square });
  }
  return begins.map((piece, k) => {
    const next = begins[k + 1];
    const own = piece.square.rms ** 2 * (to_s - piece.from_s);
    const rest = next === undefined ? 0 : next.square.rms ** 2 * (to_s - next.from_s);
    const end_s = next?.from_s ?? to_s;
    return {
      from_s: piece.from_s,
      to_s: end_s,
      rms: Math.sqrt(Math.max(0, own - rest) / (end_s - piece.from_s)),
    };
  });
}

/** Rounds of a load that has no period of its own are a second long: fewer of them than this are no picture of it. */
const fewest_s = 10;

/** RMS of the rounds that touch none of `holes`; null where there are none, or too few to stand for a load that swings as it likes. */
export function rmsClearOf(c: Case, channel: string, holes: readonly Span[]): number | null {
  let [sum, length_s] = [0, 0];
  for (const { from_s, to_s, rms } of squareCourse(c, channel)) {
    if (touches(holes, from_s, to_s)) continue;
    sum += (to_s - from_s) * rms * rms;
    length_s += to_s - from_s;
  }
  const isSteady = c.demand.peak_W === c.demand.low_W;
  const least_s = isSteady ? 0 : (c.period_s ?? fewest_s);
  return length_s > 0 && length_s >= least_s * (1 - 1e-9) ? Math.sqrt(sum / length_s) : null;
}

/**
 * RMS from the window's beginning to a moment, of the means of the record's buckets: what swings within one, a fraction of a second
 * where things move, is left out. null where no bucket ends before.
 */
export function rmsUntil(c: Case, channel: string, to_s: number): number | null {
  const { channels, bucketCount, edges_s, mean } = c.result.recording;
  const index = channels.findIndex(({ id }) => id === channel);
  if (index < 0) return null;
  let [sum, length_s] = [0, 0];
  for (let b = 0; b < bucketCount && edges_s[b + 1]! <= to_s + 1e-9; b++) {
    if (edges_s[b]! < c.result.window.from_s - 1e-9) continue;
    const width_s = edges_s[b + 1]! - edges_s[b]!;
    sum += width_s * mean[index]![b]! ** 2;
    length_s += width_s;
  }
  return length_s > 0 ? Math.sqrt(sum / length_s) : null;
}
