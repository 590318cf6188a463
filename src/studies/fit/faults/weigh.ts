/**
 * Faults of a recording, weighed on equal terms: for each the recording is taken as it would be without it, placed anew,
 * and what is left of it beside the present and the found values, gain and bias open within their class and beyond what the
 * fitted parameters could do, is compared with what is left as it was recorded.
 */
import { Matrix } from 'ml-matrix';
import type { Curves } from '../../../measured/curve/curve.ts';
import type { Measurement } from '../../../measured/measurement.ts';
import { pairsOf } from '../../../measured/pair.ts';
import { placeOf } from '../../../measured/place.ts';
import { leftWithinRanges } from '../beyond-fitted.ts';
import { perFreedom } from '../freedom.ts';
import { type FirstPlace, intervalOf, shownOf } from '../points.ts';
import { type Residuals, residualsOf, sumOf } from '../residuals.ts';
import { changedWithin } from './changed-within.ts';
import { exchangedColumns } from './exchanged.ts';
import type { Beside, Fault, Recording } from './fault.ts';
import { apartInTime, otherClocks } from './in-time.ts';
import { noReadings } from './no-readings.ts';
import { partsApart } from './parts-apart.ts';
import { readingsOff } from './readings-off.ts';

export type Weighed = Fault & {
  /** Of the sum of squares, what would be left without it. */
  readonly leaves_ratio: number;
};

export interface MisfitCase {
  readonly measurement: Measurement;
  readonly residuals: Residuals;
  readonly sensitivities: Matrix;
  /** Where the fit began to look, and how much later it found the measurement [s]. */
  readonly place: FirstPlace;
  readonly later_s: number;
  /** With the values found, and with the present ones. */
  readonly bases: readonly [Base, Base];
}

interface Base {
  readonly curves: Curves;
  /** From 0 to 1 over their ranges. */
  readonly values: readonly number[];
}

/** A recording of which less is left within the run is no explanation of the rest. */
const leastInside = 0.7;

/** Best of each kind and channel. */
export function weighedFaults(of: MisfitCase): Weighed[] {
  const { measurement, residuals, bases } = of;
  const [, present] = bases;
  const besides = bases.map(({ curves }) => besideOf(of, curves));
  const interval_s = intervalOf(measurement.columns);
  const apart = partsApart(residuals, interval_s, (more_s) => residuals.simulated(present.curves, more_s));
  const all = [
    ...besides.flatMap((beside) => [
      ...beside.columns.flatMap((_, c) => [...readingsOff(beside, c), ...changedWithin(beside, c)]),
      ...noReadings(beside),
    ]),
    ...exchangedColumns(besides[0]!),
    ...apartInTime(besides[0]!, apart),
    ...otherClocks(besides[0]!, interval_s, of.later_s),
  ];
  const rowOf = rowsOf(of);
  // Where the whole lies, and where single channels would.
  const places_s = [
    of.later_s,
    ...apart.flatMap(({ kind, first_s, later_s }) => (kind === 'delay' ? [first_s, first_s + later_s] : [])),
  ];
  const asRecorded = leastSquare(of, rowOf, { recording: besides[0]!, places_s });
  const count = residuals.points.length;
  const best = new Map<string, Weighed>();
  for (const hypothesis of all) {
    const { fault, without, moved_s } = hypothesis;
    const tried = {
      recording: without,
      places_s:
        moved_s !== null
          ? [moved_s]
          : leadsAstray(fault)
            ? [...places_s, ...placedAnew(of, without)]
            : places_s,
    };
    const leaves_ratio =
      (leastSquare(of, rowOf, tried) + (freedoms(fault) * perFreedom(count)) / count) / asRecorded;
    const key = 'path' in fault ? `${fault.kind} ${fault.path}` : fault.kind;
    if (leaves_ratio < (best.get(key)?.leaves_ratio ?? 1)) best.set(key, { ...fault, leaves_ratio });
  }
  return [...best.values()];
}

/** Numbers that a fault may choose. */
function freedoms(fault: Fault): number {
  const stretch =
    'from_s' in fault && 'to_s' in fault && (fault.from_s !== null || fault.to_s !== null) ? 1 : 0;
  switch (fault.kind) {
    case 'exchanged':
      return 0;
    case 'sign':
    case 'unit':
      return stretch;
    case 'gain':
      return 1 + stretch;
    case 'bias':
    case 'delay':
    case 'clock':
      return 1;
    case 'readings':
    case 'time lost':
      return 2;
  }
}

/** A fault of this kind may have led placing anywhere. */
function leadsAstray({ kind }: Fault): boolean {
  return kind === 'sign' || kind === 'unit' || kind === 'exchanged';
}

/** Where placing would put the recording, so much later than the first place; none where it finds none [s]. */
function placedAnew(
  { measurement, place, bases: [, present] }: MisfitCase,
  { columns }: Recording,
): number[] {
  if (place.within_s === 0) return [];
  const shown = new Map(
    measurement.columns.map((column) => [column.channel, shownOf(present.curves, column)]),
  );
  const found = placeOf(pairsOf(columns, shown));
  return found === null ? [] : [found.fine.at_s - place.at_s];
}

function besideOf({ measurement, residuals, place, later_s }: MisfitCase, curves: Curves): Beside {
  const { columns } = measurement;
  const run_s = columns.map(({ time_s }) => time_s.map((t) => place.at_s + (1 + place.rate_ratio) * t));
  const simulated = columns.map((column, c) => {
    const shown = shownOf(curves, column);
    return run_s[c]!.map((t) => shown.at(t + later_s));
  });
  return { columns, noise: residuals.noise, simulated, run_s };
}

/**
 * Mean square of what is left of it, beside the values and at the place that leave least; infinite where too little lies
 * within the run. A fault may have led the place astray, so that others are tried.
 */
function leastSquare(of: MisfitCase, rowOf: RowOf, { recording, places_s }: Placed): number {
  const { measurement, place, bases, residuals } = of;
  const count = residuals.points.length;
  const [, present] = bases;
  let least = Number.POSITIVE_INFINITY;
  for (const later_s of place.within_s === 0 ? [0] : places_s) {
    const at = { ...place, at_s: place.at_s + later_s };
    const columns = { ...measurement, columns: recording.columns };
    const again = residualsOf(columns, present.curves, at, recording.noise);
    if (again.points.length < leastInside * count) continue;
    const rows = sensitivitiesAt(of.sensitivities, rowOf, again);
    for (const { curves, values } of bases) {
      const own = leftWithinRanges(again.of(curves).left, rows, values);
      least = Math.min(least, sumOf(own) / own.length);
    }
  }
  return least;
}

interface Placed {
  readonly recording: Recording;
  /** Places that are tried, so much later than the first [s]. */
  readonly places_s: readonly number[];
}

/** The rows of the sensitivities that belong to these points; a sample that was not fitted has none. */
function sensitivitiesAt(sensitivities: Matrix, rowOf: RowOf, { points }: Residuals): Matrix {
  const rows = Matrix.zeros(points.length, sensitivities.columns);
  points.forEach(({ channel, row }, i) => {
    const at = rowOf(channel, row);
    for (let j = 0; at >= 0 && j < sensitivities.columns; j++) rows.set(i, j, sensitivities.get(at, j));
  });
  return rows;
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
