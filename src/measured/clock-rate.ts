/**
 * How fast the clock of a measurement runs against that of the run: its pieces are placed one by one, from the middle
 * outwards, each looked for where the line through those before it says, and a line is laid through the places,
 * each weighted by its error.
 */
import type { Stream } from '../engine/result.ts';
import { chosen, climb, correlationAt, slopes } from './correlate.ts';
import type { MeasuredColumn } from './measurement.ts';
import { noiseOf } from './noise.ts';

export interface ClockRate {
  /** Seconds of the run in a second of the measurement, less 1. */
  readonly rate_ratio: number;
  /** Its standard error, from the noise or from how the places scatter, whichever is more. */
  readonly error_ratio: number;
  /** Time of the run at the first stamp, by the line. */
  readonly at_s: number;
}

const mostPieces = 16;
const leastPieces = 4;
const leastSamples = 40;
/** A piece that agrees less than this with the run tells nothing. */
const leastCorrelation = 0.5;
/** A rate is told apart from none beyond this many standard errors. */
const clearly = 3;

interface Piece {
  /** Middle of the piece on the measurement's clock, and how far the run's clock is ahead there. */
  readonly time_s: number;
  readonly ahead_s: number;
  readonly weight: number;
}

/** null where the clocks cannot be told apart, or nothing can be said. */
export function clockRateOf(measured: MeasuredColumn, stream: Stream, at_s: number): ClockRate | null {
  const { time_s, values } = measured;
  const count = Math.min(mostPieces, Math.floor(time_s.length / leastSamples));
  if (count < leastPieces) return null;
  const noise = noiseOf(values);
  const pieces: Piece[] = [];
  for (const k of fromTheMiddle(count)) {
    const [from, to] = [k, k + 1].map((edge) => Math.round((edge * time_s.length) / count)) as [
      number,
      number,
    ];
    const sample = chosen({ time_s: time_s.subarray(from, to), values: values.subarray(from, to) });
    const middle_s = (time_s[from]! + time_s[to - 1]!) / 2;
    const line = lineThrough(pieces);
    const expected_s = line === null ? at_s : line.at_s + line.rate_ratio * middle_s;
    const { at_s: ahead_s, r } = climb(
      (tried) => correlationAt(sample, stream, tried),
      expected_s,
      2 / stream.rate_Hz,
    );
    const steep = slopes(sample, stream, ahead_s);
    if (r >= leastCorrelation && steep > 0) {
      pieces.push({ time_s: middle_s, ahead_s, weight: steep / (noise * noise) });
    }
  }
  const line = lineThrough(pieces);
  if (line === null || pieces.length < leastPieces) return null;
  return Math.abs(line.rate_ratio) > clearly * line.error_ratio ? line : null;
}

function fromTheMiddle(count: number): number[] {
  const middle = (count - 1) / 2;
  return Array.from({ length: count }, (_, k) => k).sort(
    (a, b) => Math.abs(a - middle) - Math.abs(b - middle),
  );
}

/** Weighted line through the places; from three on its slope, before that level. */
function lineThrough(pieces: readonly Piece[]): ClockRate | null {
  const all = pieces.reduce((sum, { weight }) => sum + weight, 0);
  if (!(all > 0)) return null;
  const mean = (of: (piece: Piece) => number): number =>
    pieces.reduce((sum, piece) => sum + piece.weight * of(piece), 0) / all;
  const [t, ahead] = [mean(({ time_s }) => time_s), mean(({ ahead_s }) => ahead_s)];
  if (pieces.length < 3) return { rate_ratio: 0, error_ratio: Number.POSITIVE_INFINITY, at_s: ahead };
  const spread = mean(({ time_s }) => (time_s - t) ** 2) * all;
  const rate_ratio = (mean((p) => (p.time_s - t) * (p.ahead_s - ahead)) * all) / spread;
  const left = mean((p) => (p.ahead_s - ahead - rate_ratio * (p.time_s - t)) ** 2) * all;
  const scatter = Math.max(1, left / (pieces.length - 2));
  return { rate_ratio, error_ratio: Math.sqrt(scatter / spread), at_s: ahead - rate_ratio * t };
}
