/** What a cabinet consists of: names and places. Every number of it is in the sheet. */

import type { Sheet } from '../sheet.ts';
import type { Specification } from '../specification/requirement.ts';
import type { Family } from '../tables.ts';
import type { Leaf } from '../text/document.ts';
import type { Model } from '../text/model-file.ts';
import type { Origin } from '../text/origin.ts';
import type { LimitHead } from './limit-rows.ts';

export interface Structure {
  /** What a new unit of a kind is made of: the model that its units share. */
  readonly blanks: ReadonlyMap<Family, () => Model | null>;
  /** In which order the units of a kind are fitted; one that is not there yet says its place: `T11 in A after T5`. */
  readonly fill: ReadonlyMap<Family, readonly Leaf[]>;
  readonly units: ReadonlyMap<Family, readonly Leaf[]>;
  readonly sections: readonly {
    readonly id: string;
    readonly order: readonly Leaf[];
    readonly origin: Origin;
  }[];
  readonly links: readonly { readonly id: string; readonly section: Leaf }[];
  readonly tie: string | null;
  readonly limits: readonly LimitHead[];
  /** Where the limits are those of a specification that another party wrote. */
  readonly specification: Specification | null;
}

/** Names of the units of a kind that are there: those on the cabinet bar may be left out by `fitted: no`. */
export function fittedUnits(structure: Structure, family: Family, sheet: Sheet): Leaf[] {
  return structure.units
    .get(family)!
    .filter(({ text }) => sheet.cells.get(`${family}.${text}.fitted`)?.value !== false);
}

/** Names of all units of a kind, fitted or not. */
export function idsOf(structure: Structure, family: Family): string[] {
  return structure.units.get(family)!.map(({ text }) => text);
}
