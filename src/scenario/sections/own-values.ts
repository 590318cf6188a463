/** What a cabinet file writes over its models. */

import type { Sheet } from '../sheet.ts';
import { asLeaf, joined } from '../text/branches.ts';
import type { Branch } from '../text/document.ts';
import type { FieldSpec } from '../text/field.ts';

/** Writes one key of a branch into its cell, where the branch has it; tells whether it has. */
export function writeOwn(
  own: Branch | null,
  key: string,
  path: string,
  field: FieldSpec,
  sheet: Sheet,
): boolean {
  const entry = own?.entries.get(key);
  if (entry === undefined) return false;
  const cell = joined(path, key);
  const leaf = asLeaf(entry.node, cell, sheet.problems);
  if (leaf !== null) sheet.write(cell, field, leaf.text, leaf.origin);
  return true;
}

/** A flag that is true where nobody says otherwise. */
export function writeFlag(
  own: Branch | null,
  key: string,
  path: string,
  field: FieldSpec,
  sheet: Sheet,
): void {
  sheet.put(joined(path, key), { field, value: true, origin: null, note: null });
  writeOwn(own, key, path, field, sheet);
}
