/** What a scenario file states beside cabinet, load and events: the run, states of parts, changes. */

import { stateKindNames } from '../part-states.ts';
import type { Change } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import { runTable } from '../tables.ts';
import { asBranch, asLeaf, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import type { Branch } from '../text/document.ts';
import { type FieldSpec, quantity } from '../text/field.ts';
import type { Origin } from '../text/origin.ts';

/** What a scenario says of its run in words, and what holds where it is silent. */
export const runWords: Readonly<
  Record<string, { readonly field: FieldSpec; readonly fallback: string | boolean }>
> = {
  start: {
    field: { kind: 'choice', of: ['settled', 'converged-cycle'], means: 'how the run starts' },
    fallback: 'settled',
  },
  outage: {
    field: { kind: 'flag', means: 'an outage is stated: the degraded column applies' },
    fallback: false,
  },
  coincidence: {
    field: {
      kind: 'choice',
      of: ['together', 'independent'],
      means: 'how the loads of several cabinets fall together',
    },
    fallback: 'together',
  },
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
  for (const [key, { field, fallback }] of Object.entries(runWords)) {
    sheet.put(key, { field, value: fallback, origin: null, note: null });
    const entry = root.entries.get(key);
    const leaf = entry === undefined ? null : asLeaf(entry.node, key, desk.problems);
    if (leaf !== null) sheet.write(key, field, leaf.text, leaf.origin);
  }
}

/** A change with the place it was asked at. */
export interface PlacedChange extends Change {
  readonly origin: Origin;
}

/** The scenario's own `ageing:`, `temperature:` and `changes:`, as changes in the order in which they are written. */
export function readChanges(root: Branch, desk: Desk): PlacedChange[] {
  const changes: PlacedChange[] = [];
  for (const section of [...stateKindNames, 'changes'] as const) {
    const entry = root.entries.get(section);
    const branch = entry === undefined ? null : asBranch(entry.node, section, desk.problems);
    for (const [key, { node, keyOrigin }] of branch?.entries ?? []) {
      const path = section === 'changes' ? key : `${section}.${key}`;
      const leaf = asLeaf(node, path, desk.problems);
      if (leaf !== null) changes.push({ path, value: leaf.text, origin: keyOrigin });
    }
  }
  return changes;
}
