/** Events against the cabinet: units that must exist, and an end of the run that must not come first. */
import { formatQuantity } from '../../base/quantity.ts';
import {
  type EventTarget,
  eventKinds,
  type OccurrenceKind,
  occurrences,
  signalNames,
} from '../occurrences.ts';
import { fittedUnits, idsOf, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { type Family, families } from '../tables.ts';
import { problemAt } from '../text/document.ts';
import { listed, nearestOr } from '../text/nearest.ts';
import { say } from '../text/say.ts';

/** The units that each kind of event may happen to. */
export function unitsOfEvents(
  structure: Structure,
  sheet: Sheet,
): Readonly<Record<OccurrenceKind, readonly string[]>> {
  const fitted = (family: Family): string[] => fittedUnits(structure, family, sheet).map(({ text }) => text);
  const links = [...structure.links.map(({ id }) => id), ...(structure.tie === null ? [] : [structure.tie])];
  const targets: Record<Exclude<EventTarget, Family>, readonly string[]> = {
    links,
    bars: links,
    signals: signalNames,
    coolant: [...fitted('shelves'), ...fitted('trays'), ...fitted('batteries')],
  };
  const unitsOf = (target: EventTarget): readonly string[] =>
    (families as readonly string[]).includes(target)
      ? target === 'feeders' || target === 'sleds'
        ? idsOf(structure, target)
        : fitted(target as Family)
      : targets[target as Exclude<EventTarget, Family>];
  return Object.fromEntries(
    eventKinds.map((kind) => {
      const { target, all } = occurrences[kind];
      return [kind, [...unitsOf(target), ...(all === true ? ['all'] : [])]];
    }),
  ) as unknown as Record<OccurrenceKind, readonly string[]>;
}

export function checkEvents(structure: Structure, eventCount: number, sheet: Sheet): void {
  const unitsOf = unitsOfEvents(structure, sheet);
  const end_s = sheet.number('duration');
  for (let i = 1; i <= eventCount; i += 1) {
    const what = sheet.text(`events.${i}.what`) as OccurrenceKind | null;
    const unit = sheet.text(`events.${i}.unit`);
    if (what !== null && unit !== null && !unitsOf[what].includes(unit)) {
      say(
        sheet,
        sheet.cells.get(`events.${i}.unit`)?.origin ?? null,
        `events.${i}.unit`,
        `unit ${unit}`,
        `for ${what} one of ${listed(unitsOf[what])}`,
        nearestOr('name one of them', unit, unitsOf[what]),
      );
    }
    const at_s = sheet.number(`events.${i}.at`);
    if (!(at_s > end_s)) continue;
    sheet.problems.push(
      problemAt(
        sheet.cells.get(`events.${i}.at`)?.origin ?? null,
        `events.${i}.at`,
        `${what} at ${formatQuantity(at_s, 'time')}`,
        `within the run of ${formatQuantity(end_s, 'time')}`,
        'it never happens; lengthen the run or move the event',
        'warning',
      ),
    );
  }
}
