/** The cabinet settled in the state that is asked for, linear, with what moves in it at every frequency. */
import type { Cabinet } from '../../engine/cabinet.ts';
import type { Drive } from '../../linear/curves.ts';
import { emptying_per_s } from '../../linear/emptying.ts';
import { standingAfter } from '../../linear/lasting.ts';
import { type Mode, modesOf } from '../../linear/modes.ts';
import { restAt } from '../../linear/rest.ts';
import { withSignals } from '../../linear/with-signals.ts';
import type { EventSpec, Scenario } from '../../scenario/scenario.ts';
import { empties, growingPoles } from '../damping.ts';
import type { AtLoad } from '../settled-load.ts';
import { marginGrid } from './loops.ts';
import { Motions } from './motions.ts';
import { type Places, placesOf, unknownName } from './places.ts';
import { type Wanted, wantedOf } from './wanted.ts';

/** Where the cabinet is settled. */
export interface SettledAsked extends AtLoad {
  /** How many of the events at 0 s, the last ones, are its state; none by default. */
  readonly state_count?: number;
  /** Nodes whose impedance is wanted; the lowest sled by default. */
  readonly nodes?: readonly string[];
  /** Shelf whose share and power loops are shown; the first running one by default. */
  readonly shelf?: string | null;
}

/** Settled and linear. Frequencies are those of `frequencies` and of the margins' own grid. */
export interface Settled {
  readonly cabinet: Cabinet;
  readonly nodes: readonly number[];
  readonly nodeNames: readonly string[];
  readonly places: Places;
  readonly wanted: readonly Wanted[];
  readonly motions: Motions;
  readonly modes: readonly Mode[];
  /** Poles that grow, those of packs that empty left out. */
  readonly growing: number;
  /** How fast packs that carry give away their charge [1/s]. */
  readonly emptying_per_s: number;
}

/** Throws BadInput where there is no operating point, no such node or shelf, or the state leaves none. */
export function settledAt(
  scenario: Scenario,
  asked: SettledAsked,
  { frequencies, highest_Hz }: { readonly frequencies: readonly number[]; readonly highest_Hz: number },
): Settled {
  const { load_W } = asked;
  const standing = standingAfter(scenario, stateOf(scenario, asked.state_count ?? 0));
  const cabinet = restAt(withSignals(scenario, standing.events), load_W, { standing });
  const { network, stepper } = cabinet;
  const names = network.topology.nodes;
  const given = asked.nodes ?? [];
  const nodeNames = given.length > 0 ? given : [lowestSled(network.sleds, stepper.v0)];
  const nodes = nodeNames.map((name) => {
    const node = names.indexOf(name);
    if (node < 0) throw unknownName('node', name, names);
    return node;
  });
  const places = placesOf(cabinet, nodes, asked.shelf ?? null);
  const wanted = wantedOf(places, nodes, names, scenario.nominal_V);
  const drives: Drive[] = [...new Set([...wanted.map(({ drive }) => drive), ...places.setPoint])];
  const motions = new Motions(places.system, drives, [...new Set([...frequencies, ...marginGrid()])]);
  const modes = modesOf(places.system, { highest_Hz });
  const emptying = emptying_per_s(scenario, load_W, standing.carrying);
  const growing = growingPoles(modes.filter((mode) => !empties(mode, emptying)));
  return { cabinet, nodes, nodeNames, places, wanted, motions, modes, growing, emptying_per_s: emptying };
}

/** The events that make the state: the last of those at 0 s, as changes add them behind the scenario's own. */
export function stateOf({ events }: Scenario, count: number): readonly EventSpec[] {
  return count === 0 ? [] : events.filter(({ at_s }) => at_s === 0).slice(-count);
}

export function lowestSled(
  { node, names }: { readonly node: Int32Array; readonly names: readonly string[] },
  v: Float64Array,
): string {
  let lowest = 0;
  names.forEach((_, k) => {
    if (v[node[k]!]! < v[node[lowest]!]!) lowest = k;
  });
  return names[lowest]!;
}
