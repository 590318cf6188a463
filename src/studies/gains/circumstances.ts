/**
 * What an acceptable point of a map must be acceptable in, beside the cabinet as it is: samples of the models' tolerances, and with
 * `over` every load, every state that may have come to stay, every age and temperature of the parts.
 */
import { BadInput } from '../../base/problem.ts';
import { standingAfter } from '../../linear/lasting.ts';
import { restAt } from '../../linear/rest.ts';
import { withSignals } from '../../linear/with-signals.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import type { Change } from '../../scenario/scenario.ts';
import { partsCases, partsName } from '../response/over/part-changes.ts';
import { loadsOf } from '../response/over/plan.ts';
import { stateChanges } from '../response/over/point.ts';
import { type CabinetState, stateName, statesOf } from '../response/over/states.ts';
import { stateOf } from '../response/settled.ts';
import type { AtLoad } from '../settled-load.ts';
import type { ChangedScenario, ReadChanged } from '../trials/trial.ts';
import type { Tolerances } from './tolerances.ts';

export interface Circumstance extends AtLoad {
  /** `sample 7`, or `60 kW, tray-out T4`. */
  readonly words: string;
  /** Parts, what was drawn, and last the events that have come to stay. */
  readonly changes: readonly Change[];
  readonly state_count: number;
}

export interface Over {
  readonly loads: readonly string[];
  readonly states: readonly string[];
  readonly parts: readonly string[];
  /** What is not asked, and why. */
  readonly not_asked: readonly { readonly words: string; readonly why: string }[];
}

export function ofSamples({ samples }: Tolerances, load_W: number): Circumstance[] {
  return samples.map((changes, k) => ({ words: `sample ${k + 1}`, changes, load_W, state_count: 0 }));
}

/** The base: what stands at `load_W`, as the scenario has it, is a point of the map itself and no circumstance. Throws BadInput. */
export function ofEverything(
  base: ReadScenario,
  asked: ChangedScenario,
  { loads: words, load_W }: { readonly loads: string | null; readonly load_W: number },
  read: ReadChanged,
): { readonly circumstances: readonly Circumstance[]; readonly over: Over } {
  const loads = loadsOf(words, load_W);
  const states = statesOf(base);
  const parts = partsCases(base, asked.changes);
  const ofState = (state: CabinetState, load: (typeof loads)[number]): Circumstance => ({
    words: `${load.words}, ${stateName(state)}`,
    load_W: load.load_W,
    changes: stateChanges(state),
    state_count: state.length,
  });
  // The heaviest load first: what fails there is asked no further.
  const all = [
    ...[...loads].reverse().flatMap((load) => states.asked.map((state) => ofState(state, load))),
    ...parts.slice(1).map((changes) => ({
      words: `parts ${partsName(changes)}`,
      ...{ load_W, changes, state_count: 0 },
    })),
  ].filter((one) => !(one.load_W === load_W && one.changes.length === 0));
  const without = all.map((one) => whyNoPoint(one, asked, read));
  return {
    circumstances: all.filter((_, k) => without[k] === null),
    over: {
      loads: loads.map((load) => load.words),
      states: states.asked
        .filter((state) =>
          all.some((one, k) => without[k] === null && one.words.endsWith(`, ${stateName(state)}`)),
        )
        .map(stateName),
      parts: parts.slice(1).map(partsName),
      not_asked: [
        ...states.not_asked.map(({ state, why }) => ({ words: state, why })),
        ...all.flatMap(({ words }, k) => (without[k] === null ? [] : [{ words, why: without[k]! }])),
      ],
    },
  };
}

/** Why the cabinet as the scenario has it settles nowhere there: no gain of the map is to blame. */
function whyNoPoint(
  { changes, load_W, state_count }: Circumstance,
  asked: ChangedScenario,
  read: ReadChanged,
): string | null {
  try {
    const { scenario } = read({ ...asked, changes: [...asked.changes, ...changes] });
    const standing = standingAfter(scenario, stateOf(scenario, state_count));
    restAt(withSignals(scenario, standing.events), load_W, { standing });
    return null;
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    return error.problems[0]!.found;
  }
}
