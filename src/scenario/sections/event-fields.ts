/** What happens in a run, as written: the list `events:` and the change `events.add`, to cells `events.1.at` …. */

import {
  eventFields,
  furtherFields,
  type Occurrence,
  type OccurrenceKind,
  occurrences,
} from '../occurrences.ts';
import type { EventSpec } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import { type Branch, problemAt } from '../text/document.ts';
import type { FieldSpec } from '../text/field.ts';
import type { Origin } from '../text/origin.ts';

function isKind(text: string | null): text is OccurrenceKind {
  return text !== null && Object.hasOwn(occurrences, text);
}

/** Fields of the event whose kind is written as `what`; only the common ones where there is no such kind. */
function fieldsOf(what: string | null): ReadonlyMap<string, FieldSpec> {
  return new Map([...Object.entries(eventFields), ...(isKind(what) ? furtherFields(what) : [])]);
}

/** Must the event say this field? */
export function isRequired(key: string, kind: Occurrence | null): boolean {
  if (key in eventFields) return true;
  if (key === 'for') return kind?.passes === 'must';
  return key !== 'over' && kind?.amount?.spec.fallback === undefined;
}

/** Reads `events:`; gives how many there are. */
export function readEvents(root: Branch, desk: Desk, sheet: Sheet): number {
  const entry = root.entries.get('events');
  if (entry === undefined) return 0;
  if (entry.node.kind !== 'row') {
    desk.problems.push(
      problemAt(
        entry.node.origin,
        'events',
        'no list',
        'a list of events',
        'write - { at: 5 s, what: tray-out, unit: T4 }',
      ),
    );
    return 0;
  }
  for (const [i, item] of entry.node.items.entries()) {
    const path = `events.${i + 1}`;
    const branch = asBranch(item, path, desk.problems);
    if (branch === null) continue;
    const what = branch.entries.get('what')?.node;
    const text = what?.kind === 'leaf' ? what.text : null;
    const kind = isKind(text) ? occurrences[text] : null;
    const fields = fieldsOf(text);
    if (kind !== null) refuseUnknownKeys(branch, [...fields.keys()], path, desk.problems);
    for (const [key, field] of fields) {
      const means = field.kind === 'quantity' ? field.spec.means : field.means;
      const written = isRequired(key, kind)
        ? required(branch, key, path, means, desk.problems)
        : (branch.entries.get(key) ?? null);
      const leaf = written === null ? null : asLeaf(written.node, joined(path, key), desk.problems);
      if (leaf !== null) sheet.write(joined(path, key), field, leaf.text, leaf.origin);
    }
  }
  return entry.node.items.length;
}

const words = ['to', 'by', 'count', 'for', 'over', 'at'] as const;

/**
 * What `ac-sag F1 to 70 % for 0.5 s at 5 s` says, field by field: what, unit, to, for, at. Null where it is not written like
 * that.
 */
export function eventWords(text: string): ReadonlyMap<string, string> | null {
  const [what = '', unit = '', ...rest] = text.trim().split(/\s+/);
  const isWord = (part: string): boolean => (words as readonly string[]).includes(part);
  if (unit === '' || rest.length === 0 || !isWord(rest[0]!)) return null;
  const said = new Map<string, string>([
    ['what', what],
    ['unit', unit],
  ]);
  let word = '';
  for (const part of rest) {
    if (isWord(part)) {
      word = part;
      said.set(word, '');
    } else said.set(word, `${said.get(word)} ${part}`.trim());
  }
  return said.has('at') ? said : null;
}

/** The change `events.add`: cells of event number `index`. */
export function addEvent(text: string, index: number, origin: Origin, sheet: Sheet): void {
  const said = eventWords(text);
  if (said === null) {
    refuse(sheet, origin, text, 'what happens, to which unit, and when', 'write it like tray-out T4 at 5 s');
    return;
  }
  const [what, unit] = [said.get('what')!, said.get('unit')!];
  const kind = isKind(what) ? occurrences[what] : null;
  const fields = fieldsOf(what);
  for (const [key, value] of said) {
    const field = fields.get(key);
    if (field !== undefined) sheet.write(`events.${index}.${key}`, field, value, origin);
    else if (kind !== null) {
      const able = [...fields.keys()].filter((name) => name !== 'what' && name !== 'unit').join(', ');
      refuse(sheet, origin, `${key} of ${what}`, `one of ${able}`, `leave out ${key} ${value}`);
    }
  }
  for (const key of fields.keys()) {
    if (said.has(key) || !isRequired(key, kind)) continue;
    refuse(
      sheet,
      origin,
      `${what} without ${key}`,
      `${key} and a value`,
      `write it like ${example(what, unit)}`,
    );
  }
}

function refuse(sheet: Sheet, origin: Origin, found: string, expected: string, mend: string): void {
  sheet.problems.push(problemAt(origin, 'events.add', found, expected, mend));
}

/** How an event of this kind is written. */
function example(what: string, unit: string): string {
  if (!isKind(what)) return `tray-out T4 at 5 s`;
  const kind = occurrences[what];
  const value = {
    ratio: '70 %',
    count: '1',
    resistance: '2 mΩ',
    power: '10 kW',
    current: '50 A',
    time: '20 ms',
  };
  const dimension = kind.amount?.spec.dimension as keyof typeof value | undefined;
  const amount = kind.amount === undefined ? '' : ` ${kind.amount.word} ${value[dimension!]}`;
  return `${what} ${unit}${amount}${kind.passes === 'must' ? ' for 0.5 s' : ''} at 5 s`;
}

/** Events in time order; those at the same time keep the file's order. */
export function eventsOf(count: number, sheet: Sheet): EventSpec[] {
  const events = Array.from({ length: count }, (_, i): EventSpec => {
    const path = `events.${i + 1}`;
    const what = sheet.text(`${path}.what`) as EventSpec['what'];
    const amount = isKind(what) ? occurrences[what].amount : undefined;
    const written = amount === undefined ? null : sheet.numberOrNull(`${path}.${amount.word}`);
    return {
      at_s: sheet.number(`${path}.at`),
      what,
      unit: sheet.text(`${path}.unit`) ?? '',
      amount: written ?? amount?.spec.fallback ?? null,
      for_s: sheet.numberOrNull(`${path}.for`),
      over_s: sheet.numberOrNull(`${path}.over`),
    };
  });
  return events.sort((a, b) => a.at_s - b.at_s);
}
