/** What protection devices guard is there, and has a current that the record shows. */
import { type OccurrenceKind, occurrences } from '../occurrences.ts';
import { guardsPath, type WrittenGuard } from '../sections/protection.ts';
import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import type { Family } from '../tables.ts';
import { nearestOr } from '../text/nearest.ts';
import { say } from '../text/say.ts';

const guarded: readonly Family[] = ['feeders', 'shelves', 'banks', 'batteries', 'sleds'];

export function checkGuards(
  guards: readonly WrittenGuard[],
  structure: Structure,
  eventCount: number,
  sheet: Sheet,
): void {
  const known = guarded.flatMap((family) => fittedUnits(structure, family, sheet).map(({ text }) => text));
  const struck = new Set(struckFeeders(eventCount, sheet));
  const feeders = new Set(fittedUnits(structure, 'feeders', sheet).map(({ text }) => text));
  for (const { id, guards: units } of guards) {
    for (const { text, origin } of units) {
      if (!known.includes(text)) {
        const mend = nearestOr('name a unit of this cabinet', text, known);
        say(
          sheet,
          origin,
          guardsPath(id),
          `unit ${text}`,
          `one of ${guarded.join(', ')} that is fitted`,
          mend,
        );
      } else if (feeders.has(text) && (struck.has(text) || struck.has('all') || givesWay(text, sheet))) {
        say(
          sheet,
          origin,
          guardsPath(id),
          `feeder ${text}, whose line voltage changes in this run`,
          'a feeder with a stiff line and no event, whose current follows from its power',
          'leave the feeder out: the limits line-current judge it',
        );
      }
    }
  }
}

function givesWay(feeder: string, sheet: Sheet): boolean {
  return sheet.number(`feeders.${feeder}.gives_way`) > 0;
}

/** Units of events that happen to feeders. */
function struckFeeders(eventCount: number, sheet: Sheet): string[] {
  return Array.from({ length: eventCount }, (_, k) => `events.${k + 1}`).flatMap((path) => {
    const what = sheet.text(`${path}.what`);
    const isOfFeeder = what !== null && Object.hasOwn(occurrences, what) && targetOf(what) === 'feeders';
    return isOfFeeder ? [sheet.text(`${path}.unit`) ?? ''] : [];
  });
}

function targetOf(what: string): string {
  return occurrences[what as OccurrenceKind].target;
}
