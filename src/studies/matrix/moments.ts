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
  return Array.from({ length: count }, (_, k) =>
    Number((Math.round((k * period_s) / count / tick_s) * tick_s).toPrecision(12)),
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
