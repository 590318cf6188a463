/** What a gains map computes: two axes, one linear trial for each pair. */
import { BadInput } from '../../base/problem.ts';
import { restAt } from '../../linear/rest.ts';
import type { Change, Scenario } from '../../scenario/scenario.ts';
import { toolVersion } from '../../version.ts';
import { settledLoad_W } from '../settled-load.ts';
import type { Planned } from '../study.ts';
import type { ChangedScenario, ReadChanged, Trial } from '../trials/trial.ts';
import { refuseOverlaps } from '../written/overlap.ts';
import { type Acceptance, acceptanceWith } from './accept.ts';
import { axisOf, type GainsAxis } from './axis.ts';
import { type Circumstance, type Over, ofEverything, ofSamples } from './circumstances.ts';
import { type Tolerances, tolerancesOf } from './tolerances.ts';

export interface GainsAsked extends ChangedScenario {
  /** Axes as written, `firmware.share.latency=2.5 ms to 60 ms in 24`. */
  readonly x: string;
  readonly y: string;
  /** Load of the settled point; null: the highest steady load of the scenario. */
  readonly load_W: number | null;
  /** Criteria of an acceptable point that are not the usual ones, `settling=0.3 s`. */
  readonly accept: readonly string[];
  /** Samples of the models' tolerances that an acceptable point must be acceptable with; 0: none is asked for. */
  readonly samples: number;
  readonly seed: number;
  /** Whether it must be so at these loads (as written; null: the usual ones), in every state and at every age; null: not asked. */
  readonly over: { readonly loads: string | null } | null;
  /** Run the box between the points of the map, and the recommended point in time. */
  readonly confirm: boolean;
}

export interface GainsPlan extends Planned {
  readonly asked: GainsAsked;
  readonly scenario: Scenario;
  readonly load_W: number;
  readonly axes: readonly [GainsAxis, GainsAxis];
  readonly acceptance: Acceptance;
  /** Null where none are asked for. */
  readonly tolerances: Tolerances | null;
  readonly over: Over | null;
  /** What a point must be acceptable in beside the scenario as it is; the same at every point. */
  readonly circumstances: readonly Circumstance[];
  /** Place of each cell on both axes, in the order in which cells are computed. */
  readonly places: readonly (readonly [x: number, y: number])[];
  readonly cells: readonly Trial<'cell'>[];
  /** The scenario at a point of the map: what a supplier must meet depends on it. */
  readonly scenarioWith: (changes: readonly Change[]) => Scenario;
}

/** Throws BadInput, also where the scenario itself has no operating point: there is nothing to vary about. */
export function planGains(asked: GainsAsked, read: ReadChanged): GainsPlan {
  const at = read(asked);
  const { scenario, warnings } = at;
  const axes = [axisOf('--x', asked.x, at), axisOf('--y', asked.y, at)] as const;
  const [a, b] = axes;
  refuseOverlaps([a.path, b.path], at.cells, '--y');
  if (scenario.shelves.length < 2) refuseSharing(axes);
  const acceptance = acceptanceWith(asked.accept);
  const load_W = settledLoad_W(scenario, asked.load_W);
  restAt(scenario, load_W);
  const places = placesOf(axes);
  const tolerances = asked.samples === 0 ? null : tolerancesOf(at, axes, asked.samples, asked.seed);
  const everything =
    asked.over === null ? null : ofEverything(at, asked, { loads: asked.over.loads, load_W }, read);
  const circumstances = [
    ...(everything?.circumstances ?? []),
    ...(tolerances === null ? [] : ofSamples(tolerances, load_W)),
  ];
  return {
    called: `gains of ${scenario.id}`,
    identity: {
      tool_version: toolVersion,
      study: {
        gains: axes,
        scenario: asked.scenario,
        changes: asked.changes,
        load_W,
        acceptance,
        tolerances,
        ...(everything === null ? {} : { over: everything.circumstances }),
      },
      inputs: scenario.inputs,
    },
    warnings,
    asked,
    scenario,
    load_W,
    axes,
    acceptance,
    tolerances,
    over: everything?.over ?? null,
    circumstances,
    places,
    cells: places.map(([x, y]) => ({
      kind: 'cell',
      scenario: asked.scenario,
      changes: [
        ...asked.changes,
        { path: a.path, value: a.values[x]! },
        { path: b.path, value: b.values[y]! },
      ],
      load_W,
    })),
    scenarioWith: (changes) =>
      read({ scenario: asked.scenario, changes: [...asked.changes, ...changes] }).scenario,
  };
}

/** Axes that act where one shelf is alone. */
const actingAlone = [
  ['shelves.proportional_gain', '100 A/V to 600 A/V in 12'],
  ['shelves.control_delay', '0 us to 110 us in 12'],
] as const;

/** The share loop works between shelves: where there is one, its numbers change nothing and a map over them shows nothing. */
function refuseSharing(axes: readonly [GainsAxis, GainsAxis]): void {
  const taken = axes.map(({ path }) => path);
  const free = actingAlone.filter(([path]) => !taken.includes(path));
  const idle = axes.flatMap(({ path }, k) => {
    if (!path.startsWith('firmware.share.')) return [];
    const option = k === 0 ? '--x' : '--y';
    const [instead, values] = free.shift()!;
    return {
      severity: 'error' as const,
      path: option,
      found: `${path}, in a cabinet of one shelf`,
      expected: 'a number that acts: sharing is between shelves',
      mend: `write ${option} ${instead}="${values}"`,
    };
  });
  if (idle.length > 0) throw new BadInput(idle);
}

/** Along the axis that leaves the plant alone, where one does (firmware): what neighbours share is made once. */
function placesOf([a, b]: readonly [GainsAxis, GainsAxis]): GainsPlan['places'] {
  const isAlongX = a.path.startsWith('firmware.') && !b.path.startsWith('firmware.');
  const [outer, inner] = isAlongX ? [b, a] : [a, b];
  return outer.values.flatMap((_, o) =>
    inner.values.map((__, i): readonly [number, number] => (isAlongX ? [i, o] : [o, i])),
  );
}
