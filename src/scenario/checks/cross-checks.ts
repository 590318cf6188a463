/** Checks that need more than one value: names that must exist, orders that must hold, bars that must reach. */

import type { LoadSpec } from '../scenario.ts';
import type { Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { placedFamilies } from '../tables.ts';
import type { Leaf } from '../text/document.ts';
import { listed, nearestOr } from '../text/nearest.ts';
import { say } from '../text/say.ts';
import { checkBatteries } from './battery-checks.ts';
import { checkEvents } from './event-checks.ts';
import { checkFeeders } from './feeder-checks.ts';
import { checkOrders } from './order-checks.ts';
import { refuseUnfedBars } from './reach.ts';
import { checkRun } from './run-checks.ts';
import { checkShelves } from './shelf-checks.ts';
import { checkSignals } from './signal-checks.ts';
import { checkSleds } from './sled-checks.ts';
import { checkSlowBranches } from './slow-branch-checks.ts';
import { checkSupply } from './supply-checks.ts';
import { checkTrays } from './tray-checks.ts';
import { warnOfUnusual } from './usual-checks.ts';
import { checkVoltages } from './voltage-checks.ts';

export function crossCheck(
  structure: Structure,
  loadKind: LoadSpec['kind'] | null,
  eventCount: number,
  sheet: Sheet,
): void {
  // What is usual of a part for another voltage would say the same again, number by number.
  if (checkVoltages(structure, sheet)) warnOfUnusual(sheet);
  checkPlaces(structure, sheet);
  checkLinks(structure, sheet);
  refuseUnfedBars(structure, sheet);
  checkEvents(structure, eventCount, sheet);
  checkSignals(structure, eventCount, sheet);
  checkSleds(structure, eventCount, sheet);
  checkFeeders(structure, sheet);
  checkOrders(structure, sheet);
  checkShelves(structure, eventCount, sheet);
  checkTrays(structure, sheet);
  checkSlowBranches(structure, sheet);
  checkBatteries(structure, sheet);
  checkSupply(structure, loadKind, sheet);
  checkRun(loadKind, sheet);
}

function checkPlaces(structure: Structure, sheet: Sheet): void {
  const known = new Map<string, Leaf>();
  for (const family of placedFamilies) {
    for (const leaf of structure.units.get(family)!) {
      if (known.has(leaf.text)) {
        say(
          sheet,
          leaf.origin,
          family,
          `${leaf.text} a second time`,
          'a name of its own',
          'give it another name',
        );
      }
      known.set(leaf.text, leaf);
    }
  }
  const placed = new Set<string>();
  for (const { id, order, origin } of structure.sections) {
    if (order.length === 0) {
      say(sheet, origin, `sections.${id}`, 'no places', 'at least one unit', `name a unit or remove ${id}`);
    }
    for (const leaf of order) {
      const path = `sections.${id}`;
      if (!known.has(leaf.text)) {
        const mend = nearestOr('define it or take it out', leaf.text, [...known.keys()]);
        say(sheet, leaf.origin, path, `unit ${leaf.text}`, 'a unit that the cabinet defines', mend);
      } else if (placed.has(leaf.text)) {
        say(
          sheet,
          leaf.origin,
          path,
          `${leaf.text} in a second place`,
          'each unit in one place',
          'keep one of them',
        );
      }
      placed.add(leaf.text);
    }
  }
  for (const [id, leaf] of known) {
    if (placed.has(id)) continue;
    say(
      sheet,
      leaf.origin,
      id,
      `unit ${id} without a place`,
      'a place in a section',
      `add ${id} to sections`,
    );
  }
}

function checkLinks(structure: Structure, sheet: Sheet): void {
  const racks = structure.units.get('sleds')!.length;
  for (const { id, section } of structure.links) {
    const path = `bars.links.${id}`;
    const order = structure.sections.find((candidate) => candidate.id === section.text)?.order;
    if (order === undefined) {
      const names = structure.sections.map((candidate) => candidate.id);
      say(
        sheet,
        section.origin,
        `${path}.section`,
        `section ${section.text}`,
        names.length === 0 ? 'a section of the bars, and there is none' : listed(names),
        names.length === 0 ? 'declare it under sections, or leave the link out' : 'name one of them',
      );
    }
    const within = (key: 'place' | 'rack', most: number, of: string): void => {
      const value = sheet.number(`${path}.${key}`);
      if (!(value > most)) return;
      const origin = sheet.cells.get(`${path}.${key}`)?.origin ?? null;
      say(sheet, origin, `${path}.${key}`, `${key} ${value}`, `1 to ${most}, ${of}`, 'name one that exists');
    };
    if (order !== undefined) within('place', order.length, `the places of section ${section.text}`);
    within('rack', racks, 'the nodes of the rack bar, one per sled');
  }
}
