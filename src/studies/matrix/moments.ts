/** Moments of a load's cycle that faults are tried at: what a fault does depends on where in the cycle it comes. */
import { BadInput } from '../../base/problem.ts';
import { formatQuantity, readQuantity } from '../../base/quantity.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { eventWords } from '../../scenario/sections/event-fields.ts';
import type { StudyFile } from '../written/study-file.ts';
import { wholeNumber } from '../written/whole-number.ts';

const mostMoments = 64;

/** How much later than written a fault is tried [s]: 0 first, then evenly over a period. Throws BadInput without a period. */
export function momentsOf(
  study: StudyFile,
  { load, tick_s }: Pick<Scenario, 'load' | 'tick_s'>,
): readonly number[] {
  const count = wholeNumber(study, 'moments', 1, 1, mostMoments);
  if (count === 1) return [0];
  if (!('period_s' in load)) {
    throw new BadInput([
      {
        severity: 'error',
        path: 'moments',
        found: `${count} moments of the cycle of a load of kind ${load.kind}`,
        expected: 'a load with a period',
        mend: 'leave out moments, or give several faults at times of their own',
      },
    ]);
  }
  const { period_s } = load;
  return Array.from({ length: count }, (_, k) => onTicks((k * period_s) / count, tick_s));
}

function onTicks(time_s: number, tick_s: number): number {
  return Number((Math.round(time_s / tick_s) * tick_s).toPrecision(12));
}

/** How moments are searched about the worst of those that all faults are tried at. */
export interface MomentSearch {
  readonly period_s: number;
  readonly tick_s: number;
  /** What lies between two moments that all are tried at. */
  readonly spacing_s: number;
  /** Of each place the changes before its fault, and the fault. */
  readonly made_of: readonly { readonly before: readonly Change[]; readonly fault: readonly Change[] }[];
  /** How much later than written the last event of each place may come, before the end of the run [s]. */
  readonly room_s: readonly number[];
}

/** Times that the distance to the worst moment is halved: a sixteenth of the spacing at the end. */
export const halvings = 4;

/** Runs that a cell is searched by at most, two at each halving. */
export const mostSearched: number = 2 * halvings;

export function searchOf(
  { load, tick_s }: Pick<Scenario, 'load' | 'tick_s'>,
  moments_s: readonly number[],
  { made_of, room_s }: Pick<MomentSearch, 'made_of' | 'room_s'>,
): MomentSearch | null {
  if (!('period_s' in load)) return null;
  return { period_s: load.period_s, tick_s, spacing_s: load.period_s / moments_s.length, made_of, room_s };
}

/** Moments at this distance before and after one, within the period and the run, and not among those tried. */
export function momentsBeside(
  at_s: number,
  distance_s: number,
  { period_s, tick_s, room_s }: Pick<MomentSearch, 'period_s' | 'tick_s'> & { readonly room_s: number },
  tried_s: readonly number[],
): readonly number[] {
  const known = new Set(tried_s);
  const beside = [at_s - distance_s, at_s + distance_s].map((moment_s) =>
    onTicks((moment_s + period_s) % period_s, tick_s),
  );
  return [...new Set(beside)].filter(
    (moment_s) => moment_s < Math.min(period_s, room_s) && !known.has(moment_s),
  );
}

/** The same fault, all its events so much later. */
export function later(changes: readonly Change[], by_s: number): readonly Change[] {
  if (by_s === 0) return changes;
  return changes.map((change) => {
    const words = change.path === 'events.add' ? eventWords(change.value) : null;
    const at = words === null ? null : readQuantity(words.get('at') ?? '', 'time');
    if (words === null || at === null || !at.ok) return change;
    const moved = new Map(words).set('at', formatQuantity(Number((at.value + by_s).toPrecision(12)), 'time'));
    return { path: change.path, value: eventText(moved) };
  });
}

/** As `eventWords` reads it. */
function eventText(words: ReadonlyMap<string, string>): string {
  return [...words]
    .map(([key, word]) => (key === 'what' || key === 'unit' ? word : `${key} ${word}`))
    .join(' ');
}
