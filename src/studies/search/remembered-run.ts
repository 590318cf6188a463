import type { RunOutcome } from '../trials/run-outcome.ts';
import type { RunWhole } from '../trials/trial.ts';

/** The same `run`, and every outcome that it gave, in the order in which they were asked for. */
export function remembered(run: RunWhole): {
  readonly run: RunWhole;
  readonly outcomes: readonly RunOutcome[];
} {
  const all: RunOutcome[] = [];
  return {
    outcomes: all,
    run: async (trials, enough) => {
      const outcomes = await run(trials, enough);
      all.push(...outcomes);
      return outcomes;
    },
  };
}
