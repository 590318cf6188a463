/**
 * Searches that go on side by side. Each asks for a few trials and thinks before it asks again; what all of them
 * ask for is run as one round, so that no thread waits while one search halves. The rounds depend on the
 * searches alone, not on who finishes first.
 */
import type { RunOutcome } from '../trials/run-outcome.ts';
import type { RunWhole, Trial } from '../trials/trial.ts';

export type Search<T> = (run: RunWhole) => Promise<T>;

interface AskedRound {
  readonly trials: readonly Trial<'run'>[];
  readonly resolve: (outcomes: readonly RunOutcome[]) => void;
  readonly reject: (error: unknown) => void;
}

/** Results of the searches in their order; rejects with the first that fails. */
export function inRounds<T>(searches: readonly Search<T>[], run: RunWhole): Promise<readonly T[]> {
  let going = searches.length;
  let asked = new Map<number, AskedRound>();
  const begin = (): void => {
    if (going === 0 || asked.size < going) return;
    const round = [...asked].sort(([a], [b]) => a - b).map(([, one]) => one);
    asked = new Map();
    run(round.flatMap(({ trials }) => trials)).then(
      (outcomes) => {
        let from = 0;
        for (const { trials, resolve } of round) {
          resolve(outcomes.slice(from, from + trials.length));
          from += trials.length;
        }
      },
      (error: unknown) => {
        for (const { reject } of round) reject(error);
      },
    );
  };
  return Promise.all(
    searches.map(async (search, k) => {
      try {
        return await search(
          (trials) =>
            new Promise((resolve, reject) => {
              asked.set(k, { trials, resolve, reject });
              begin();
            }),
        );
      } finally {
        going -= 1;
        begin();
      }
    }),
  );
}
