/** Every bar node must be reached from a shelf over closed bars; a node that nobody feeds cannot be run. */

import { fittedUnits, type Structure } from '../sections/structure.ts';
import type { Sheet } from '../sheet.ts';
import { problemAt } from '../text/document.ts';

export function refuseUnfedBars(structure: Structure, sheet: Sheet): void {
  const shelves = new Set(fittedUnits(structure, 'shelves', sheet).map(({ text }) => text));
  // Sections and the rack are whole bars: what reaches one node of them reaches all.
  const fed = new Set(
    structure.sections.filter(({ order }) => order.some(({ text }) => shelves.has(text))).map(({ id }) => id),
  );
  const joints: [string, string][] = structure.links
    .filter(({ id }) => sheet.flag(`bars.links.${id}.closed`))
    .map(({ section }) => [section.text, rack]);
  const [first, second] = structure.sections;
  if (
    structure.tie !== null &&
    first !== undefined &&
    second !== undefined &&
    sheet.flag('bars.tie.closed')
  ) {
    joints.push([first.id, second.id]);
  }
  for (let grew = true; grew; ) {
    grew = false;
    for (const [a, b] of joints) {
      if (fed.has(a) === fed.has(b)) continue;
      fed.add(a).add(b);
      grew = true;
    }
  }
  const bars = [...structure.sections.map(({ id }) => id), rack];
  for (const bar of bars) {
    if (fed.has(bar)) continue;
    const sled = structure.units.get('sleds')![0];
    const section = structure.sections.find(({ id }) => id === bar);
    sheet.problems.push(
      problemAt(
        (bar === rack ? sled?.origin : section?.order[0]?.origin) ?? null,
        bar === rack ? 'bars.links' : `sections.${bar}`,
        bar === rack ? 'a rack bar that no closed link bar feeds' : `section ${bar}, which no shelf feeds`,
        'a way from a shelf over closed bars to every node',
        'close or add a link bar, or the tie',
      ),
    );
  }
}

/** Name of the rack bar here; sections are named by letters. */
const rack = '(rack)';
