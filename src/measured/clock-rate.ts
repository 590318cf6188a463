/**
 * How fast the clock of a measurement runs against that of the run. Its pieces are placed one by one, from the middle
 * outwards, each looked for where the line through those before it says: a rate fitted to all of it at once finds
 * the wrong hill as soon as drift exceeds an edge. The line is a beginning for the fit of place and clock together, and
 * its scatter says whether the pieces agree on a clock at all.
 */
import { finestCell_s } from './coarse.ts';
import { climb, type Fine, refine } from './fine.ts';
import { type MeasuredPair, partOf } from './pair.ts';

export interface ClockLine {
  readonly rate_ratio: number;
  /** By how the pieces scatter about the line, or by their own errors, whichever is more. */
  readonly error_ratio: number;
  /** Time of the run at the first stamp, by the line. */
  readonly at_s: number;
}

const mostPieces = 16;
const leastPieces = 4;
const leastSamples = 40;
/** A piece that agrees less than this with the run tells nothing. */
const leastCorrelation = 0.5;

interface ClockPiece {
  /** Middle of the piece on the measurement's clock, and how far the run's clock is ahead there. */
  readonly time_s: number;
  readonly ahead_s: number;
  readonly weight: number;
}

/** A piece shows its place by an edge where it does so by less than this share of its samples. */
const edgeShare = 1 / 3;

/**
 * null where too few pieces show a place of their own. `edgesOnly`: smooth stretches do not count, for a wrong model
 * bends them, which looks like a clock.
 */
export function clockLineOf(
  pairs: readonly MeasuredPair[],
  at_s: number,
  edgesOnly: boolean,
): ClockLine | null {
  const longest = Math.max(...pairs.map(({ time_s }) => time_s.length));
  const count = Math.min(mostPieces, Math.floor(longest / leastSamples));
  if (count < leastPieces) return null;
  const from_s = Math.min(...pairs.map(({ time_s }) => time_s[0]!));
  const piece_s = (Math.max(...pairs.map(({ time_s }) => time_s.at(-1)!)) - from_s) / count;
  const step_s = 2 * finestCell_s;
  // A piece shows a place where it shows it to better than a sample.
  const interval_s = Math.min(...pairs.map((pair) => pair.interval_s));
  const pieces: ClockPiece[] = [];
  for (const k of fromTheMiddle(count)) {
    const part = pairs.flatMap((pair) => {
      const cut = partOf(pair, from_s + k * piece_s, from_s + (k + 1) * piece_s);
      return cut.time_s.length < leastSamples / 4 ? [] : [cut];
    });
    if (part.length === 0) continue;
    const middle_s = from_s + (k + 0.5) * piece_s;
    const line = lineThrough(pieces);
    const expected_s = line === null ? at_s : line.at_s + line.rate_ratio * middle_s;
    const climbed_s = climb(part, expected_s, step_s, 0);
    const found = refine(part, climbed_s, 0, false);
    // A short piece may find itself in another edge: that is not where the line looked.
    if (Math.abs(found.at_s - climbed_s) > step_s) continue;
    const error_s = 1 / Math.sqrt(found.normal[0]);
    const agrees = found.channels.some(({ correlation_ratio }) => correlation_ratio >= leastCorrelation);
    if (agrees && error_s < interval_s && !(edgesOnly && !hasEdge(found))) {
      pieces.push({
        time_s: middle_s,
        ahead_s: found.at_s,
        weight: found.normal[0],
      });
    }
  }
  return pieces.length < leastPieces ? null : lineThrough(pieces);
}

/** (Σg²)²/Σg⁴ is the number of samples that what shows the place is spread over. */
function hasEdge({ channels }: Fine): boolean {
  return channels.some(({ byPlace }) => {
    const g2 = byPlace.reduce((sum, g) => sum + g * g, 0);
    const g4 = byPlace.reduce((sum, g) => sum + (g * g) ** 2, 0);
    return g4 > 0 && (g2 * g2) / g4 < edgeShare * byPlace.length;
  });
}

function fromTheMiddle(count: number): number[] {
  const middle = (count - 1) / 2;
  return Array.from({ length: count }, (_, k) => k).sort(
    (a, b) => Math.abs(a - middle) - Math.abs(b - middle),
  );
}

/** Weighted line through the places; from three on its slope, before that level. */
function lineThrough(pieces: readonly ClockPiece[]): ClockLine | null {
  const all = pieces.reduce((sum, { weight }) => sum + weight, 0);
  if (!(all > 0)) return null;
  const mean = (of: (piece: ClockPiece) => number): number =>
    pieces.reduce((sum, piece) => sum + piece.weight * of(piece), 0) / all;
  const [t, ahead] = [mean(({ time_s }) => time_s), mean(({ ahead_s }) => ahead_s)];
  if (pieces.length < 3)
    return {
      rate_ratio: 0,
      error_ratio: Number.POSITIVE_INFINITY,
      at_s: ahead,
    };
  const spread = mean(({ time_s }) => (time_s - t) ** 2) * all;
  const rate_ratio = (mean((p) => (p.time_s - t) * (p.ahead_s - ahead)) * all) / spread;
  const left = mean((p) => (p.ahead_s - ahead - rate_ratio * (p.time_s - t)) ** 2) * all;
  const scatter = Math.max(1, left / (pieces.length - 2));
  return {
    rate_ratio,
    error_ratio: Math.sqrt(scatter / spread),
    at_s: ahead - rate_ratio * t,
  };
}
