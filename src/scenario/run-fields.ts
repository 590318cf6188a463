/** What a scenario file states beside cabinet and load: the run, events, ageing, changes. */
import { asBranch, asLeaf, joined, refuseUnknownKeys, required } from './branches.ts';
import type { Desk } from './desk.ts';
import { type Branch, problemAt } from './document.ts';
import { type FieldSpec, quantity } from './field.ts';
import type { Change, EventSpec, Origin } from './scenario.ts';
import type { Sheet } from './sheet.ts';
import { runTable } from './tables.ts';

export const eventKinds: readonly EventSpec['what'][] = [
  'shelf-trip',
  'tray-out',
  'bar-out',
  'ac-loss',
  'ac-return',
];

export const eventFields: Readonly<Record<'at' | 'what' | 'unit', FieldSpec>> = {
  at: quantity({ dimension: 'time', symbol: '—', means: 'when it happens', min: 0, max: 1e6, ticks: true }),
  what: { kind: 'choice', of: eventKinds, means: 'what happens' },
  unit: { kind: 'text', means: 'the unit, bar or feeder it happens to' },
};

const startField: FieldSpec = {
  kind: 'choice',
  of: ['settled', 'converged-cycle'],
  means: 'how the run starts',
};

const outageField: FieldSpec = { kind: 'flag', means: 'an outage is stated: the degraded column applies' };

const coincidenceField: FieldSpec = {
  kind: 'choice',
  of: ['together', 'independent'],
  means: 'how the loads of several cabinets fall together',
};

/** Reads duration, warm-up, step, tick, seed, cabinets on the feeder, start, outage and coincidence. */
export function readRunFields(root: Branch, desk: Desk, sheet: Sheet): void {
  for (const [key, spec] of Object.entries(runTable)) {
    const field = quantity(spec);
    const entry = root.entries.get(key);
    if ('fallback' in spec) sheet.put(key, { field, value: spec.fallback, origin: null, note: null });
    if (entry === undefined) {
      if (!('fallback' in spec)) required(root, key, '', spec.means, desk.problems);
      continue;
    }
    const leaf = asLeaf(entry.node, key, desk.problems);
    if (leaf !== null) sheet.write(key, field, leaf.text, leaf.origin);
  }
  for (const [key, field, fallback] of [
    ['start', startField, 'settled'],
    ['outage', outageField, false],
    ['coincidence', coincidenceField, 'together'],
  ] as const) {
    sheet.put(key, { field, value: fallback, origin: null, note: null });
    const entry = root.entries.get(key);
    const leaf = entry === undefined ? null : asLeaf(entry.node, key, desk.problems);
    if (leaf !== null) sheet.write(key, field, leaf.text, leaf.origin);
  }
}

/** Reads `events:` into cells `events.1.at` …; gives how many there are. */
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
    refuseUnknownKeys(branch, Object.keys(eventFields), path, desk.problems);
    for (const [key, field] of Object.entries(eventFields)) {
      const means = field.kind === 'quantity' ? field.spec.means : field.means;
      const written = required(branch, key, path, means, desk.problems);
      const leaf = written === null ? null : asLeaf(written.node, joined(path, key), desk.problems);
      if (leaf !== null) sheet.write(joined(path, key), field, leaf.text, leaf.origin);
    }
  }
  return entry.node.items.length;
}

/** The change `events.add`, for example `tray-out T4 at 5 s`: cells of event number `index`. */
export function addEvent(text: string, index: number, origin: Origin, sheet: Sheet): void {
  const words = /^(\S+)\s+(\S+)\s+at\s+(.+)$/.exec(text);
  if (words === null) {
    sheet.problems.push(
      problemAt(
        origin,
        'events.add',
        text,
        'what happens, to which unit, and when',
        'write it like tray-out T4 at 5 s',
      ),
    );
    return;
  }
  const [, what = '', unit = '', at = ''] = words;
  for (const [key, word] of [
    ['what', what],
    ['unit', unit],
    ['at', at],
  ] as const) {
    sheet.write(`events.${index}.${key}`, eventFields[key], word, origin);
  }
}

/** A change with the place it was asked at. */
export interface PlacedChange extends Change {
  readonly origin: Origin;
}

/** The scenario's own `ageing:` and `changes:`, as changes in the order they are applied. */
export function readChanges(root: Branch, desk: Desk): PlacedChange[] {
  const changes: PlacedChange[] = [];
  for (const section of ['ageing', 'changes'] as const) {
    const entry = root.entries.get(section);
    const branch = entry === undefined ? null : asBranch(entry.node, section, desk.problems);
    for (const [key, { node, keyOrigin }] of branch?.entries ?? []) {
      const path = section === 'ageing' ? `ageing.${key}` : key;
      const leaf = asLeaf(node, path, desk.problems);
      if (leaf !== null) changes.push({ path, value: leaf.text, origin: keyOrigin });
    }
  }
  return changes;
}
