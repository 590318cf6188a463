/** What a gains map found. */
import { headOf, type StudyHead } from '../head.ts';
import { type LimitTitles, limitTitles } from '../limit-titles.ts';
import { pathWords } from '../path-words.ts';
import type { ChangedScenario } from '../trials/trial.ts';
import type { Acceptance } from './accept.ts';
import type { Over } from './circumstances.ts';
import type { Confirmation } from './confirm.ts';
import type { Worst } from './in-circumstances.ts';
import { chosenCell, type GainsMap } from './map.ts';
import type { GainsPlan } from './plan.ts';
import { type Requirement, requirementsOf } from './requirements.ts';
import type { Tolerances } from './tolerances.ts';

export interface GainsReport extends StudyHead, GainsMap {
  readonly limit_titles: LimitTitles;
  readonly load_W: number;
  /** What every point begins from; its values come behind (`point-trial.ts`). */
  readonly base: ChangedScenario;
  readonly acceptance: Acceptance;
  /** Samples of the models' tolerances and what was drawn; null where none were asked for. */
  readonly tolerances: {
    readonly samples: number;
    readonly seed: number;
    readonly drawn: Tolerances['drawn'];
  } | null;
  /** Loads, states and parts that were asked, and what was not; null where none were asked for. */
  readonly over: Over | null;
  /** How many circumstances every acceptable point is acceptable in, and the worst of each criterion at the point chosen. */
  readonly circumstances: number;
  readonly worst: readonly Worst[];
  readonly confirmation: Confirmation | null;
  readonly requirements: readonly Requirement[];
  readonly remarks: readonly string[];
}

export function gainsReport(
  { asked, scenario, load_W, acceptance, tolerances, over, circumstances, scenarioWith }: GainsPlan,
  map: GainsMap,
  worst: readonly Worst[],
  confirmation: Confirmation | null,
): GainsReport {
  const { axes, recommended } = map;
  const [a, b] = axes;
  const leaves = chosenCell(map)?.leaves_ratio ?? null;
  return {
    ...headOf(
      {
        id: scenario.id,
        kind: 'gains',
        title: `${pathWords(a.path)} against ${pathWords(b.path)}: ${scenario.title}`,
        about: `linear, about rest at ${(load_W / 1e3).toFixed(1)} kW`,
      },
      [...scenario.inputs, ...scenario.changes.map((change) => ({ change }))],
      [scenario.nominal_V],
    ),
    limit_titles: limitTitles([scenario]),
    ...map,
    load_W,
    base: { scenario: asked.scenario, changes: asked.changes },
    acceptance,
    tolerances:
      tolerances === null
        ? null
        : { samples: tolerances.samples.length, seed: tolerances.seed, drawn: tolerances.drawn },
    over,
    circumstances: circumstances.length,
    worst,
    confirmation,
    requirements: requirementsOf(
      recommended === null ? scenario : scenarioWith(recommended.changes),
      recommended,
      acceptance,
      leaves,
    ),
    remarks: [
      ...(recommended?.doubts ?? []),
      ...reasonsOf(map),
      'Linear about one settled point: dead band and quantum of the share loop are zero in it, save for the steady error, which has them.',
      'Loops slower than 0.3 rad/s (charge of the trays, leakage of the trims) are not part of a map; `response` has them.',
    ],
  };
}

/** Why cells are without numbers, each reason once with how many. */
function reasonsOf({ cells }: GainsMap): string[] {
  const counts = new Map<string, number>();
  for (const { reason } of cells) if (reason !== null) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  const most = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 3);
  return most.map(([reason, n]) => `Without numbers, ${n} ${n === 1 ? 'point' : 'points'}: ${reason}.`);
}
