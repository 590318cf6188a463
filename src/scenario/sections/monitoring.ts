/** The section `monitoring`: ports by name, the devices that each polls, and how. */

import { fieldOf } from '../parameter.ts';
import { type PortValues, portParameters } from '../parameters/port.ts';
import type { PortSpec } from '../scenario.ts';
import type { Sheet } from '../sheet.ts';
import { asBranch, asWords, joined, refuseUnknownKeys, required } from '../text/branches.ts';
import type { Desk } from '../text/desk.ts';
import type { Branch, Leaf } from '../text/document.ts';
import { quantity } from '../text/field.ts';
import type { Origin } from '../text/origin.ts';
import { writeOwn } from './own-values.ts';

export const portKeys: readonly string[] = ['polls', ...Object.keys(portParameters)];

/** A port as it is written; its numbers are in the sheet. */
export interface WrittenPort {
  readonly id: string;
  readonly polls: readonly Leaf[];
  readonly origin: Origin;
}

/** Reads `monitoring:`; none where there is none. */
export function readMonitoring(root: Branch, desk: Desk, sheet: Sheet): WrittenPort[] {
  const entry = root.entries.get('monitoring');
  const ports = entry === undefined ? null : asBranch(entry.node, 'monitoring', desk.problems);
  return [...(ports?.entries ?? [])].flatMap(([id, { node, keyOrigin }]): WrittenPort[] => {
    const path = portPath(id);
    const port = asBranch(node, path, desk.problems);
    if (port === null) return [];
    refuseUnknownKeys(port, portKeys, path, desk.problems);
    for (const [key, spec] of Object.entries(portParameters)) {
      const field = quantity(spec);
      if ('fallback' in spec)
        sheet.put(joined(path, key), { field, value: spec.fallback, origin: null, note: null });
      else required(port, key, path, spec.means, desk.problems);
      writeOwn(port, key, path, field, sheet);
    }
    const polls = required(
      port,
      'polls',
      path,
      'the devices, in the order in which they are asked',
      desk.problems,
    );
    const words = polls === null ? [] : asWords(polls.node, joined(path, 'polls'), desk.problems);
    return [{ id, polls: words, origin: keyOrigin }];
  });
}

export function portValues(id: string, sheet: Sheet): PortValues {
  return Object.fromEntries(
    Object.entries(portParameters).map(([key, spec]) => [
      fieldOf(key, spec),
      sheet.number(joined(portPath(id), key)),
    ]),
  ) as PortValues;
}

export function portsOf(written: readonly WrittenPort[], sheet: Sheet): PortSpec[] {
  return written.map(({ id, polls }) => ({
    id,
    polls: polls.map(({ text }) => text),
    values: portValues(id, sheet),
  }));
}

export function portPath(id: string): string {
  return `monitoring.${id}`;
}
