/**
 * What is left of a recording as it would be without a fault, over the very samples of the fit: beside the present and the
 * found values, gain and bias open within their class, beyond what the fitted parameters could do within their ranges.
 */
import { Matrix } from 'ml-matrix';
import type { Curves } from '../../../measured/curve/curve.ts';
import type { Measurement } from '../../../measured/measurement.ts';
import { leftWithinRanges } from '../beyond-fitted.ts';
import { type FirstPlace, intervalOf } from '../points.ts';
import { type Residuals, residualsOf } from '../residuals.ts';
import type { Recording } from './fault.ts';

export interface MisfitCase {
  readonly measurement: Measurement;
  readonly residuals: Residuals;
  /** As it was recorded, at every point. */
  readonly left: Float64Array;
  readonly sensitivities: Matrix;
  /** Where the fit began to look, and how much later it found the measurement [s]. */
  readonly place: FirstPlace;
  readonly later_s: number;
  /** With the values found, and with the present ones. */
  readonly bases: readonly [Base, Base];
}

export interface Base {
  readonly curves: Curves;
  /** From 0 to 1 over their ranges. */
  readonly values: readonly number[];
  /** With each value moved by so much, the others kept. */
  readonly beside: readonly { readonly by: number; readonly curves: Curves }[];
}

/** About a place that is tried it is looked for this far off, in samples: the farther, the fewer lie within the run. */
const mostMoved = 5;
/** A recording of which less is left within the run is no explanation of the rest. */
const leastInside = 0.7;

/** Σ of squares left of a recording at the best of places, so much later than the first [s]; infinite where too little lies within the run. */
export type LeftWithout = (recording: Recording, places_s: readonly number[]) => number;

export function leftWithout(of: MisfitCase): LeftWithout {
  const rowOf = rowsOf(of);
  const asRecorded = of.left.map((e) => e * e);
  return (recording, places_s) => {
    let least = Number.POSITIVE_INFINITY;
    for (const later_s of places_s) {
      for (const squares of squaresOf(of, rowOf, recording, later_s)) {
        least = Math.min(least, totalOf(squares, asRecorded));
      }
    }
    return least;
  };
}

/** A sample that the fault says is none: it was what the fault makes it, and leaves what the others do. */
const leftOut = Number.NaN;
/** The run does not reach it there. */
const outside = Number.POSITIVE_INFINITY;

/** A sample that leaves the run is not explained by that: it costs what it did as it was recorded, and no less than the others. */
function totalOf(squares: Float64Array, asRecorded: Float64Array): number {
  let [sum, inside, gone] = [0, 0, 0];
  for (const square of squares) {
    if (square === outside) gone++;
    else if (!Number.isNaN(square)) {
      sum += square;
      inside++;
    }
  }
  if (!(inside > leastInside * (inside + gone))) return Number.POSITIVE_INFINITY;
  const mean = sum / inside;
  return squares.reduce((total, square, i) => {
    if (Number.isNaN(square)) return total + mean;
    return total + (square === outside ? Math.max(mean, asRecorded[i]!) : square);
  }, 0);
}

/** Of each sample of the fit, beside either base; slopes are those at this place and without this fault. */
function squaresOf(
  { measurement, place, bases, residuals }: MisfitCase,
  rowOf: RowOf,
  { columns, noise }: Recording,
  later_s: number,
): Float64Array[] {
  const within_s = Math.min(place.within_s, mostMoved * intervalOf(measurement.columns));
  const at = { ...place, at_s: place.at_s + later_s, within_s };
  const [, present] = bases;
  const again = residualsOf({ ...measurement, columns }, present.curves, at, noise);
  const places = again.points.map(({ channel, row }) => rowOf(channel, row));
  const isLeftOut = residuals.points.map(({ channel, row }) => Number.isNaN(columns[channel]!.values[row]!));
  return bases.map(({ curves, values, beside }) => {
    const { left } = again.of(curves);
    const slopes = Matrix.zeros(left.length, beside.length);
    beside.forEach((moved, j) => {
      const column = again.of(moved.curves).left.map((e, i) => (e - left[i]!) / moved.by);
      slopes.setColumn(j, column);
    });
    const squares = Float64Array.from(isLeftOut, (isOut) => (isOut ? leftOut : outside));
    leftWithinRanges(left, slopes, values).forEach((e, i) => {
      const k = places[i]!;
      if (k >= 0) squares[k] = e ** 2;
    });
    return squares;
  });
}

/** Place of a sample among the residuals of the fit; −1: it has none. */
type RowOf = (channel: number, row: number) => number;

function rowsOf({ measurement, residuals }: MisfitCase): RowOf {
  const rows = measurement.columns.map(({ values }) => new Int32Array(values.length).fill(-1));
  residuals.points.forEach(({ channel, row }, i) => {
    rows[channel]![row] = i;
  });
  return (channel, row) => rows[channel]![row]!;
}
