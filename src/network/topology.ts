/**
 * The cabinet as a graph: which nodes there are, and which bar joins which. One node per place of a section,
 * one per rack position, one per sled behind its contact.
 */
import { BadInput, type Problem } from '../base/problem.ts';
import type { Scenario } from '../scenario/scenario.ts';

export type BarRole = 'segment' | 'rack-segment' | 'link' | 'tie' | 'contact';

export interface BarPiece {
  readonly id: string;
  readonly role: BarRole;
  readonly from: number;
  readonly to: number;
  readonly resistance_ohm: number;
  readonly inductance_H: number;
  readonly closed: boolean;
}

export interface Topology {
  /** Node ids: `A.S1` for a place, `rack.3` for a rack node, the sled's own id behind its contact. */
  readonly nodes: readonly string[];
  readonly bars: readonly BarPiece[];
  /** Node of each unit that stands on the cabinet bar or is a sled. */
  readonly nodeOf: ReadonlyMap<string, number>;
  readonly rackNodes: readonly number[];
}

/** Lays out nodes and bars; refuses sleds that no shelf or battery can reach. */
export function layOut(scenario: Scenario): Topology {
  const nodes: string[] = [];
  const bars: BarPiece[] = [];
  const nodeOf = new Map<string, number>();
  const places = new Map<string, number[]>();
  const add = (id: string): number => nodes.push(id) - 1;
  const { segment, rackSegment, contact, links, tie } = scenario.bars;

  for (const section of scenario.sections) {
    const row = section.order.map((unit) => {
      const node = add(`${section.id}.${unit}`);
      nodeOf.set(unit, node);
      return node;
    });
    places.set(section.id, row);
    for (let k = 1; k < row.length; k++) {
      const id = `${section.id}.${section.order[k - 1]}-${section.order[k]}`;
      bars.push({ id, role: 'segment', from: row[k - 1]!, to: row[k]!, ...segment, closed: true });
    }
  }

  const rackNodes = scenario.sleds.map((_, k) => add(`rack.${k + 1}`));
  for (let k = 1; k < rackNodes.length; k++) {
    const id = `rack.${k}-${k + 1}`;
    bars.push({
      id,
      role: 'rack-segment',
      from: rackNodes[k - 1]!,
      to: rackNodes[k]!,
      ...rackSegment,
      closed: true,
    });
  }

  for (const link of links) {
    const { id, resistance_ohm, inductance_H, closed } = link;
    const from = places.get(link.section)![link.place - 1]!;
    const to = rackNodes[link.rack - 1]!;
    bars.push({ id, role: 'link', from, to, resistance_ohm, inductance_H, closed });
  }

  const [first, second] = scenario.sections;
  if (tie !== null && first !== undefined && second !== undefined) {
    const { id, resistance_ohm, inductance_H, closed } = tie;
    const from = places.get(first.id)!.at(-1)!;
    const to = places.get(second.id)!.at(-1)!;
    bars.push({ id, role: 'tie', from, to, resistance_ohm, inductance_H, closed });
  }

  scenario.sleds.forEach((sled, k) => {
    const node = add(sled.id);
    nodeOf.set(sled.id, node);
    bars.push({
      id: `${sled.id}.contact`,
      role: 'contact',
      from: rackNodes[k]!,
      to: node,
      ...contact,
      closed: true,
    });
  });

  refuseUnfed(scenario, nodes, bars, nodeOf);
  return { nodes, bars, nodeOf, rackNodes };
}

/** Every sled must be joined to at least one rectifier shelf over closed bars. */
function refuseUnfed(
  scenario: Scenario,
  nodes: readonly string[],
  bars: readonly BarPiece[],
  nodeOf: ReadonlyMap<string, number>,
): void {
  const island = nodes.map((_, k) => k);
  const root = (k: number): number => (island[k] === k ? k : root(island[k]!));
  for (const bar of bars) if (bar.closed) island[root(bar.from)] = root(bar.to);
  const fed = new Set(scenario.shelves.map((shelf) => root(nodeOf.get(shelf.id)!)));
  const dark = scenario.sleds.filter((sled) => !fed.has(root(nodeOf.get(sled.id)!)));
  if (dark.length === 0) return;
  const origin = scenario.origins.get('bars.links') ?? scenario.origins.get('bars');
  const problem: Problem = {
    severity: 'error',
    ...origin,
    path: 'bars.links',
    found: `${dark.length} of ${scenario.sleds.length} sleds (${dark[0]!.id} first) with no closed bar to any shelf`,
    expected: 'every sled fed by at least one rectifier shelf over closed bars',
    mend: 'close or add a link bar between a cabinet section and the rack bar',
  };
  throw new BadInput([problem]);
}
