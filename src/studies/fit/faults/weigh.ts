/**
 * Faults of a recording, weighed on equal terms: for each the recording is taken as it would be without it, placed anew,
 * and what is left of it is compared with what is left as it was recorded.
 */
import type { MeasuredColumn } from '../../../measured/measurement.ts';
import { pairsOf } from '../../../measured/pair.ts';
import { placeOf } from '../../../measured/place.ts';
import { perFreedom } from '../freedom.ts';
import { intervalOf, shownOf } from '../points.ts';
import { sumOf } from '../residuals.ts';
import type { Fault, Hypothesis, Recording } from './fault.ts';
import { freedomsOf } from './freedoms.ts';
import { hypothesesOf } from './hypotheses.ts';
import { leftWithout, type MisfitCase } from './left-without.ts';
import { partsApart } from './parts-apart.ts';
import { withoutWider } from './wider.ts';

export type Weighed = Fault & {
  /** Of the sum of squares, what would be left without it. */
  readonly leaves_ratio: number;
};

/** Best of each kind and channel. */
export function weighedFaults(of: MisfitCase): Weighed[] {
  const { measurement, residuals, bases, place } = of;
  const [, present] = bases;
  const apart = partsApart(residuals, intervalOf(measurement.columns), (more_s) =>
    residuals.simulated(present.curves, more_s),
  );
  const leftAt = leftWithout(of);
  // Where the whole lies, and where single channels would.
  const places_s = [
    of.later_s,
    ...apart.flatMap(({ kind, first_s, later_s }) => (kind === 'delay' ? [first_s, first_s + later_s] : [])),
  ];
  const isGiven = place.within_s === 0;
  const asItWas: Recording = { columns: measurement.columns, noise: residuals.noise };
  // The same fault beside the values found and the present ones lies at one place.
  const known = new Map<string, readonly number[]>();
  const anew = (fault: Fault, without: Recording): readonly number[] => {
    const key = JSON.stringify(fault);
    const found = known.get(key) ?? placedAnew(of, without);
    known.set(key, found);
    return found;
  };
  const placesFor = ({ fault, without, moved_s }: Hypothesis): readonly number[] => {
    if (moved_s !== null && (!isGiven || fault.kind === 'place')) return [moved_s];
    if (isGiven) return [0];
    return leadsAstray(fault) ? [...places_s, ...anew(fault, without)] : places_s;
  };
  const asRecorded = Math.min(sumOf(of.left), leftAt(asItWas, isGiven ? [0] : places_s));
  const count = residuals.points.length;
  const best = new Map<string, Weighed>();
  const elsewhere = isGiven
    ? placedAnew(of, asItWas).map((moved_s) => begunElsewhere(of, asItWas, moved_s))
    : [];
  for (const hypothesis of [...hypothesesOf(of, apart), ...elsewhere]) {
    const { fault, without } = hypothesis;
    const left = leftAt(without, placesFor(hypothesis)) + freedomsOf(fault) * perFreedom(count);
    const leaves_ratio = left / asRecorded;
    const key = 'path' in fault ? `${fault.kind} ${fault.path}` : fault.kind;
    if (leaves_ratio < (best.get(key)?.leaves_ratio ?? 1)) best.set(key, { ...fault, leaves_ratio });
  }
  return withoutWider([...best.values()]);
}

/** The stated place is another one than that of the measurement. */
function begunElsewhere({ place: { at_s } }: MisfitCase, without: Recording, moved_s: number): Hypothesis {
  return { fault: { kind: 'place', at_s: at_s + moved_s, stated_s: at_s }, without, moved_s };
}

/** A fault of this kind may have led placing anywhere. */
function leadsAstray({ kind }: Fault): boolean {
  return (
    kind === 'averaged' ||
    kind === 'sign' ||
    kind === 'unit' ||
    kind === 'exchanged' ||
    kind === 'readings' ||
    kind === 'stamps'
  );
}

/** Where placing would put the recording, so much later than the first place; none where it finds none [s]. */
function placedAnew({ place, bases: [, present] }: MisfitCase, { columns }: Recording): number[] {
  const shown = new Map(columns.map((column) => [column.channel, shownOf(present.curves, column)]));
  const found = placeOf(pairsOf(columns.map(read), shown));
  return found === null ? [] : [found.fine.at_s - place.at_s];
}

/** Its readings alone. */
function read(column: MeasuredColumn): MeasuredColumn {
  const inside = [...column.values.keys()].filter((i) => !Number.isNaN(column.values[i]!));
  const chosen = (from: Float64Array): Float64Array => Float64Array.from(inside, (i) => from[i]!);
  return { ...column, time_s: chosen(column.time_s), values: chosen(column.values) };
}
