/** Where loci pass the negative real axis, and where they pass the unit circle: found between points too. */
import { angle, type Complex, magnitude, subtract } from '../complex.ts';
import { inOrderOf, type LociAt, type LociPoint } from './loci.ts';

export interface Passing {
  readonly frequency_Hz: number;
  readonly value: Complex;
  /** The measure grows with frequency where it passes zero. */
  readonly isRising: boolean;
}

/** What is zero at a passing. */
type Measure = (value: Complex) => number;

/** Two points between which locus k passes. */
interface Span {
  readonly before: LociPoint;
  readonly after: LociPoint;
  readonly k: number;
}

/** Of the frequency, to which a passing is found. */
const fine = 1e-6;
const mostTurns = 16;

/** Passings of the negative real axis between `least` and 1/`least` in size. Rising: from below to above. */
export function axisPassings(at: LociAt, points: readonly LociPoint[], least: number): Passing[] {
  const isWanted = ({ re }: Complex): boolean => re < -least && re > -1 / least;
  const measure: Measure = ({ im }) => im;
  return apart(at, points, measure, isWanted)
    .filter(({ before, after, k }) => isWanted(before.values[k]!) || isWanted(after.values[k]!))
    .map((span) => foundIn(span, at, measure))
    .filter(({ value }) => isWanted(value));
}

/** A figure of a passing of which the lowest is looked for. */
export type Ask = (frequency_Hz: number, value: Complex) => number;

/** Passings of the unit circle, save those that at both ends of their span ask more than others ask at either of theirs. */
export function circlePassings(at: LociAt, points: readonly LociPoint[], asks: readonly Ask[]): Passing[] {
  const measure: Measure = (value) => magnitude(value) - 1;
  const spans = apart(at, points, measure, () => true);
  const ends = asks.map((ask) =>
    spans.map(({ before, after, k }) =>
      [before, after].map(({ frequency_Hz, values }) => ask(frequency_Hz, values[k]!)),
    ),
  );
  const most = ends.map((one) => Math.min(...one.map((pair) => Math.max(...pair))));
  return spans
    .filter((_, s) => ends.some((one, j) => Math.min(...one[s]!) <= most[j]!))
    .map((span) => foundIn(span, at, measure));
}

function spansOf(points: readonly LociPoint[], measure: Measure): Span[] {
  return points.slice(1).flatMap((after, p) => {
    const before = points[p]!;
    return after.values.flatMap((value, k) =>
      measure(before.values[k]!) < 0 === measure(value) < 0 ? [] : [{ before, after, k }],
    );
  });
}

/** Times that a span is halved until what passes in it is told from its neighbours. */
const deepest = 6;
/** A neighbour this many times as far as a locus moves is not taken for it. */
const clear = 3;

/** Spans short enough that a locus that passes in one is not taken for another that runs beside it. */
function apart(
  at: LociAt,
  points: readonly LociPoint[],
  measure: Measure,
  isWanted: (value: Complex) => boolean,
): Span[] {
  const within = (before: LociPoint, after: LociPoint, depth: number): Span[] => {
    const spans = spansOf([before, after], measure);
    const passing = spans.filter(({ k }) => isWanted(before.values[k]!) || isWanted(after.values[k]!));
    if (depth === 0 || passing.every((span) => isClear(span))) return spans;
    const frequency_Hz = Math.sqrt(before.frequency_Hz * after.frequency_Hz);
    const middle = { frequency_Hz, values: inOrderOf(before.values, at(frequency_Hz)) };
    const end = { ...after, values: inOrderOf(middle.values, after.values) };
    return [...within(before, middle, depth - 1), ...within(middle, end, depth - 1)];
  };
  return points.slice(1).flatMap((after, p) => within(points[p]!, after, deepest));
}

function isClear({ before, after, k }: Span): boolean {
  const moved = magnitude(subtract(after.values[k]!, before.values[k]!));
  return [before, after].every(({ values }) =>
    values.every((value, j) => j === k || magnitude(subtract(value, values[k]!)) > clear * moved),
  );
}

/** False position with the Illinois weights (M. Dowell, P. Jarratt, BIT 11, 1971), along one locus. */
function foundIn({ before, after, k }: Span, at: LociAt, measure: Measure): Passing {
  let [low, high] = [before, after];
  let [a, b] = [measure(before.values[k]!), measure(after.values[k]!)];
  const isRising = a < b;
  let side = 0;
  let found = low;
  for (let turn = 0; turn < mostTurns; turn++) {
    const frequency_Hz = (low.frequency_Hz * b - high.frequency_Hz * a) / (b - a);
    const near = frequency_Hz - low.frequency_Hz < high.frequency_Hz - frequency_Hz ? low : high;
    found = { frequency_Hz, values: inOrderOf(near.values, at(frequency_Hz)) };
    if (Math.abs(frequency_Hz - near.frequency_Hz) < fine * frequency_Hz) break;
    const m = measure(found.values[k]!);
    if (m < 0 === a < 0) {
      low = found;
      a = m;
      if (side === -1) b /= 2;
      side = -1;
    } else {
      high = found;
      b = m;
      if (side === 1) a /= 2;
      side = 1;
    }
  }
  return { frequency_Hz: found.frequency_Hz, value: found.values[k]!, isRising };
}

/** Phase that a value lacks to −180° [rad]: in (−π, π], positive where more lag takes it there. */
export function lagTo(value: Complex): number {
  const lag = angle(value) + Math.PI;
  return lag > Math.PI ? lag - 2 * Math.PI : lag;
}
