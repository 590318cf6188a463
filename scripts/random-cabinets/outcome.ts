/** What the engine makes of a random cabinet, in the few figures that a series is judged by. */
import type { Result, Status } from '../../src/engine/result.ts';
import { simulate } from '../../src/engine/simulate.ts';
import { levelsOf } from '../../src/limits/levels.ts';
import { makeDemand } from '../../src/loads/make-demand.ts';
import { assemble } from '../../src/network/network.ts';
import type { Scenario } from '../../src/scenario/scenario.ts';

/** How a run ended; `crash`: something was thrown. */
export type Ending = Status | 'crash';

export interface CabinetOutcome {
  readonly ending: Ending;
  /** What was said: the failure or the error. */
  readonly words: string;
  /** Open part of the audit over throughput; not a number where a run crashed. */
  readonly residual_ratio: number;
  readonly figures: Figures;
}

/** What must not depend on the step. */
export interface Figures {
  readonly lowest_V: number;
  readonly highest_V: number;
  readonly shelfPeak_A: number;
  readonly throughput_J: number;
}

const none: Figures = {
  lowest_V: Number.NaN,
  highest_V: Number.NaN,
  shelfPeak_A: Number.NaN,
  throughput_J: Number.NaN,
};

/** Runs a scenario, at its own step or at one `refine` times finer. */
export function outcomeOf(scenario: Scenario, refine = 1): CabinetOutcome {
  try {
    const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
    const result = simulate(assemble(scenario), makeDemand(scenario), { levels_V, refine });
    return {
      ending: result.status,
      words: result.failure?.cause ?? '',
      residual_ratio: result.audit.residual_ratio,
      figures: figuresOf(result),
    };
  } catch (error) {
    const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { ending: 'crash', words, residual_ratio: Number.NaN, figures: none };
  }
}

function figuresOf({ recording, extremes, audit }: Result): Figures {
  const kindOf = new Map(recording.channels.map(({ id, kind }) => [id, kind]));
  const nodes = extremes.filter(({ channel }) => kindOf.get(channel) === 'node-voltage');
  const shelves = extremes.filter(({ channel }) => kindOf.get(channel) === 'shelf-current');
  return {
    lowest_V: Math.min(...nodes.map(({ min }) => min)),
    highest_V: Math.max(...nodes.map(({ max }) => max)),
    shelfPeak_A: Math.max(...shelves.map(({ max }) => max)),
    throughput_J: Math.max(audit.input_J, audit.load_J, audit.loss_J),
  };
}
