/**
 * Changes of what stands where: units added to the cabinet bar, moved along it, and counted by the order in
 * which the cabinet file fills its places. They come before every other change, so that those reach new units.
 *
 *   trays.add: T11 in A after T5          shelves.add: S9 on F1 in B last
 *   banks.move: K1 to A after S1          trays.count: 8
 *
 * A new unit takes the values of its kind's model. A link bar keeps the unit it stands at when places shift;
 * one that stands at the place of a moved unit stays at that place.
 */

import type { PlacedChange } from '../sections/run-fields.ts';
import { idsOf, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { type Family, fitted, numbersOf, placedFamilies } from '../tables.ts';
import { type Leaf, problemAt } from '../text/document.ts';
import { putModel } from '../text/model-file.ts';
import { listed, nearestOr } from '../text/nearest.ts';
import type { Origin } from '../text/origin.ts';

const verbs = ['add', 'move', 'count'] as const;

/** What each of them does, said as a change would say it. */
export const placeVerbs: Readonly<Record<(typeof verbs)[number], string>> = {
  add: 'a unit more, and where it stands: T11 in A after T5',
  move: 'a unit to another place: T4 to A after S1',
  count:
    'how many are fitted: the first so many of fill in the cabinet file, each with its own model; one that is added has that of its kind',
};

/** Whether a change says what stands where. */
export function isPlaceChange({ path }: { readonly path: string }): boolean {
  return placedFamilies.some((family) => verbs.some((verb) => path === `${family}.${verb}`));
}

/** Every path of this kind. */
export const placePaths: readonly string[] = placedFamilies.flatMap((family) =>
  verbs.map((verb) => `${family}.${verb}`),
);

/** Applies them in order; what is wrong is noted in the sheet. */
export function rearrange(structure: Structure, changes: readonly PlacedChange[], sheet: Sheet): Structure {
  return changes.reduce((before, change) => {
    const [family = '', verb = ''] = change.path.split('.');
    const work = new Rearrangement(before, family as Family, change, sheet);
    if (verb === 'add') return work.add(change.value);
    return verb === 'move' ? work.move(change.value) : work.count(change.value);
  }, structure);
}

interface UnitPlace {
  readonly section: string;
  /** How many units stand before it. */
  readonly index: number;
}

class Rearrangement {
  private readonly structure: Structure;
  private readonly family: Family;
  private readonly path: string;
  private readonly origin: Origin;
  private readonly sheet: Sheet;

  constructor(structure: Structure, family: Family, change: PlacedChange, sheet: Sheet) {
    this.structure = structure;
    this.family = family;
    this.path = change.path;
    this.origin = change.origin;
    this.sheet = sheet;
  }

  add(text: string): Structure {
    const { family, sheet, structure, origin } = this;
    const words = /^([A-Za-z][\w-]*)(?: on (\S+))? in (\S+ (?:first|last|after \S+))$/.exec(text.trim());
    const demands = family === 'shelves';
    if (words === null || demands !== (words[2] !== undefined)) {
      const example = demands ? 'S9 on F1 in A after S4' : 'T11 in A after T5';
      return this.refuse(text, 'a new unit and its place', `write it like ${example}`);
    }
    const [, id = '', feeder, where = ''] = words;
    if (placedFamilies.some((kind) => idsOf(structure, kind).includes(id))) {
      return this.refuse(`${id} a second time`, 'a name of its own', 'give it another name');
    }
    const place = this.placeOf(where, structure);
    if (place === null) return structure;
    const path = `${family}.${id}`;
    const before = sheet.problems.length;
    const model = structure.blanks.get(family)?.() ?? null;
    if (model === null) {
      // A model that is named and cannot be read has been said.
      if (sheet.problems.length > before) return structure;
      const mend = `add model: … below ${family} in the cabinet file`;
      return this.refuse(text, `a cabinet with a model for all ${family}, which new ones take`, mend);
    }
    putModel(model, '', numbersOf(family), path, sheet);
    sheet.put(`${path}.fitted`, { field: fitted, value: true, origin: null, note: null });
    if (feeder !== undefined) {
      const of = idsOf(structure, 'feeders');
      sheet.write(`${path}.feeder`, { kind: 'choice', of, means: 'feeder of the shelf' }, feeder, origin);
    }
    const unit: Leaf = { kind: 'leaf', text: id, origin };
    const units = new Map(structure.units);
    units.set(family, [...structure.units.get(family)!, unit]);
    return this.inserted({ ...structure, units }, unit, place);
  }

  move(text: string): Structure {
    const { structure, family } = this;
    const words = /^(\S+) to (\S+ (?:first|last|after \S+))$/.exec(text.trim());
    if (words === null)
      return this.refuse(text, 'a unit and where it goes', 'write it like K1 to A after S1');
    const [, id = '', where = ''] = words;
    const ids = idsOf(structure, family);
    if (!ids.includes(id)) return this.refuse(id, `one of ${listed(ids)}`, nearest(id, ids));
    const from = structure.sections.find(({ order }) => order.some((unit) => unit.text === id));
    if (from === undefined)
      return this.refuse(`${id}, which has no place`, 'a unit with a place', 'place it');
    const at = from.order.findIndex((unit) => unit.text === id);
    const unit = from.order[at]!;
    const without = this.withOrder(structure, from.id, [
      ...from.order.slice(0, at),
      ...from.order.slice(at + 1),
    ]);
    const place = this.placeOf(where, without);
    if (place === null) return structure;
    this.shiftLinks(from.id, at + 1, -1);
    return this.inserted(without, unit, place);
  }

  /** Fits the first of the cabinet's fill order, so many; leaves the others of the kind out. */
  count(text: string): Structure {
    const { structure, family, sheet, origin } = this;
    const fill = structure.fill.get(family) ?? [];
    if (fill.length === 0) {
      const mend = `add fill: [ … ] below ${family} in the cabinet file, in the order in which they are fitted`;
      return this.refuse(text, `a cabinet that says in which order ${family} are fitted`, mend);
    }
    const wanted = /^\d+$/.test(text.trim()) ? Number(text) : -1;
    if (wanted < 0 || wanted > fill.length) {
      return this.refuse(
        text,
        `a whole number from 0 to ${fill.length}`,
        `the fill order names ${fill.length}`,
      );
    }
    let now = structure;
    const names = fill.map(({ text: entry }) => entry.split(' ')[0] ?? '');
    for (const entry of fill.slice(0, wanted)) {
      const id = entry.text.split(' ')[0] ?? '';
      if (idsOf(now, family).includes(id)) continue;
      now = new Rearrangement(now, family, { path: this.path, value: '', origin }, sheet).add(entry.text);
    }
    for (const id of idsOf(now, family)) {
      const k = names.indexOf(id);
      const field = fitted;
      sheet.put(`${family}.${id}.fitted`, { field, value: k >= 0 && k < wanted, origin, note: null });
    }
    return now;
  }

  private placeOf(where: string, structure: Structure): UnitPlace | null {
    const [id = '', how = '', neighbour = ''] = where.split(' ');
    const section = structure.sections.find((candidate) => candidate.id === id);
    if (section === undefined) {
      const ids = structure.sections.map((candidate) => candidate.id);
      this.refuse(`section ${id}`, listed(ids), nearest(id, ids));
      return null;
    }
    if (how === 'first') return { section: id, index: 0 };
    if (how === 'last') return { section: id, index: section.order.length };
    const names = section.order.map(({ text }) => text);
    const k = names.indexOf(neighbour);
    if (k < 0) {
      this.refuse(`${neighbour} in section ${id}`, `one of ${listed(names)}`, nearest(neighbour, names));
      return null;
    }
    return { section: id, index: k + 1 };
  }

  private inserted(structure: Structure, unit: Leaf, { section, index }: UnitPlace): Structure {
    const { order } = structure.sections.find(({ id }) => id === section)!;
    this.shiftLinks(section, index, +1);
    return this.withOrder(structure, section, [...order.slice(0, index), unit, ...order.slice(index)]);
  }

  private withOrder(structure: Structure, id: string, order: readonly Leaf[]): Structure {
    const sections = structure.sections.map((section) =>
      section.id === id ? { ...section, order } : section,
    );
    return { ...structure, sections };
  }

  /** Link bars of a section that stand behind its first `before` places. */
  private shiftLinks(section: string, before: number, by: 1 | -1): void {
    for (const link of this.structure.links) {
      const path = `bars.links.${link.id}.place`;
      const cell = this.sheet.cells.get(path);
      if (link.section.text !== section || typeof cell?.value !== 'number' || cell.value <= before) continue;
      this.sheet.put(path, { ...cell, value: cell.value + by });
    }
  }

  private refuse(found: string, expected: string, mend: string): Structure {
    this.sheet.problems.push(problemAt(this.origin, this.path, found, expected, mend));
    return this.structure;
  }
}

function nearest(word: string, words: readonly string[]): string {
  return nearestOr('name one of them', word, words);
}
