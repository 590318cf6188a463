import { keyOf } from '../trials/key.ts';
import type { RunOutcome } from '../trials/run-outcome.ts';
import type { RunWhole } from '../trials/trial.ts';

/** The same `run`, and every outcome that it gave, each trial once, in the order in which they were first asked for. */
export function remembered(run: RunWhole): {
  readonly run: RunWhole;
  outcomes(): readonly RunOutcome[];
} {
  const all = new Map<string, RunOutcome>();
  return {
    outcomes: () => [...all.values()],
    run: async (trials, enough) => {
      const outcomes = await run(trials, enough);
      outcomes.forEach((outcome, k) => {
        all.set(keyOf(trials[k]!), outcome);
      });
      return outcomes;
    },
  };
}
