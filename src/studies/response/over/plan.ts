/** What a search for the worst margins asks: its loads, states, states of parts, and tolerances. */
import { BadInput } from '../../../base/problem.ts';
import { formatQuantity, readQuantity } from '../../../base/quantity.ts';
import type { ReadScenario } from '../../../scenario/read.ts';
import type { Change } from '../../../scenario/scenario.ts';
import { drawnChanges } from '../../spread/drawn-changes.ts';
import { modelVariables } from '../../spread/model-variables.ts';
import type { ChangedScenario } from '../../trials/trial.ts';
import { valuesOf } from '../../written/values.ts';
import { type TolerancedKind, tolerancedKinds } from './ends.ts';
import { type PartsCase, partsCases } from './part-changes.ts';
import { asStated, type Point, type WrittenLoad } from './point.ts';
import { type CabinetState, type States, statesOf } from './states.ts';

/** Points about which more is asked than loads and states, and kinds of tolerances whose corners are. */
export const pursued = { points: 3, kinds: 3 } as const;

export interface OverAsked {
  /** Loads as written, `24 kW to 240 kW in 4`; null: from a tenth of the highest to the highest. */
  readonly loads: string | null;
  /** Samples of the models' tolerances; 0: none, and no corners. */
  readonly samples: number;
  readonly seed: number;
}

export interface OverPlan {
  readonly base: ChangedScenario;
  readonly shelf: string | null;
  readonly loads: readonly WrittenLoad[];
  readonly states: States;
  readonly parts: readonly PartsCase[];
  readonly tolerances: OverTolerances | null;
  /** Every state at every load, as stated, new and at usual temperature. */
  readonly grid: readonly Point[];
  /** About how many points are asked. */
  readonly expects: number;
}

export interface OverTolerances {
  readonly seed: number;
  readonly drawn: readonly (readonly [path: string, tolerance: string])[];
  readonly samples: readonly (readonly Change[])[];
  readonly kinds: readonly TolerancedKind[];
}

/** Loads by themselves: from this share of the highest, no load being one at which power loops and trays do nothing (assumed). */
const idle_ratio = 0.1;
const usual_loads = 3;

/** `highest_W`: the highest steady load; `state`: the one state that is asked for, none for all. Throws BadInput. */
export function planOver(
  asked: OverAsked,
  read: ReadScenario,
  of: {
    readonly base: ChangedScenario;
    readonly shelf: string | null;
    readonly state: CabinetState;
    readonly highest_W: number;
  },
): OverPlan {
  const { base, shelf, state, highest_W } = of;
  const all = statesOf(read);
  const states = state.length === 0 ? all : { asked: [[], state], not_asked: [] };
  const loads = loadsOf(asked.loads, highest_W);
  const parts = partsCases(read, base.changes);
  const tolerances = asked.samples === 0 ? null : tolerancesOf(read, asked);
  const grid = states.asked.flatMap((one) =>
    loads.map((load): Point => ({ load, state: one, parts: [], drawn: asStated, changes: [] })),
  );
  const about = tolerances === null ? 0 : asked.samples + tolerances.kinds.length + 2 ** pursued.kinds;
  return {
    base,
    shelf,
    loads,
    states,
    parts,
    tolerances,
    grid,
    expects: grid.length + pursued.points * (parts.length - 1 + about),
  };
}

export function loadsOf(words: string | null, highest_W: number): readonly WrittenLoad[] {
  const texts =
    words === null
      ? Array.from({ length: usual_loads }, (_, k) => {
          const ratio = idle_ratio + ((1 - idle_ratio) * k) / (usual_loads - 1);
          // Four digits: loads as people write them.
          return k === usual_loads - 1
            ? exact(highest_W)
            : formatQuantity(Number((ratio * highest_W).toPrecision(4)), 'power');
        })
      : valuesOf('--loads', words, 'power');
  return texts.map((text) => {
    const reading = readQuantity(text, 'power');
    if (reading.ok && reading.value >= 0) return { words: text, load_W: reading.value };
    throw new BadInput([
      {
        severity: 'error',
        path: '--loads',
        found: text,
        expected: 'loads of 0 W or more',
        mend: 'write "24 kW to 240 kW in 4" or "100 kW | 240 kW"',
      },
    ]);
  });
}

/** Written so that it reads as the same number. */
function exact(load_W: number): string {
  const words = formatQuantity(load_W, 'power');
  const reading = readQuantity(words, 'power');
  return reading.ok && reading.value === load_W ? words : `${load_W} W`;
}

function tolerancesOf(read: ReadScenario, { samples, seed }: OverAsked): OverTolerances {
  const { drawn, variables } = modelVariables(read, '--samples 0');
  return {
    seed,
    drawn,
    samples: drawnChanges(variables, samples, seed),
    kinds: tolerancedKinds(variables),
  };
}
