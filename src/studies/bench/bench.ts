/**
 * The bench: runs the trials of a study on all cores. Outcomes depend on the trial alone, and whether enough
 * is known is asked only of unbroken beginnings in the order of the trials: the same answers whatever the
 * number of threads, and whether or not some outcomes were found before.
 */
import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import { BadInput } from '../../base/problem.ts';
import { built } from '../../home.ts';
import type { RunTrials, Trial, TrialOutcome } from '../trial.ts';
import { keyOf, type Store } from './store.ts';
import type { Worked } from './work.ts';

export interface BenchOptions {
  /** Threads; all cores by default. */
  readonly workers?: number;
  readonly store?: Store;
  /** Simulate nothing: what is not in the store is missing. For parts that were run elsewhere. */
  readonly offline?: boolean;
  /** Trials finished and trials known to be wanted, each time one of them grows. */
  readonly onProgress?: (done: number, wanted: number) => void;
}

/** Thrown out of `run` when somebody stopped the bench. */
export class Stopped extends Error {}

export class Bench {
  readonly #pool: Piscina<Trial, Worked>;
  readonly #workers: number;
  readonly #options: BenchOptions;
  readonly #known: Map<string, TrialOutcome> = new Map();
  /** Keys of all trials that a caller got an outcome for, in their order. */
  readonly used: string[] = [];
  /** Trials that were simulated here, not found in the store. */
  simulated = 0;
  #done = 0;
  #wanted = 0;
  #stop: (() => void) | null = null;
  #stopped = false;

  constructor(options: BenchOptions = {}) {
    this.#options = options;
    this.#workers = options.workers ?? availableParallelism();
    this.#pool = new Piscina({
      filename: built('studies/bench/work.ts').href,
      name: 'work',
      minThreads: 1,
      maxThreads: this.#workers,
      // Flags of this process, a loader among them, are not for threads: they run as built.
      execArgv: [],
    });
  }

  /** Outcomes of the trials in their order; see RunTrials. */
  readonly run: RunTrials = async (trials, enough = () => false) => {
    const keys = trials.map(keyOf);
    const outcomes: (TrialOutcome | undefined)[] = keys.map((key) => this.#have(key));
    this.#wanted += trials.length;
    this.#done += outcomes.filter((outcome) => outcome !== undefined).length;
    this.#tell();
    let whole = 0;
    const beginning: TrialOutcome[] = [];
    /** Moves the end of the unbroken beginning; true once it tells enough. */
    const advance = (): boolean => {
      for (let next = outcomes[whole]; next !== undefined; next = outcomes[whole]) {
        beginning.push(next);
        whole += 1;
        if (enough(beginning)) return true;
      }
      return whole === trials.length;
    };
    if (!advance()) {
      if (this.#options.offline === true) refuseMissing(outcomes);
      await this.#work(trials, keys, outcomes, advance);
    }
    this.#wanted += whole - trials.length;
    for (const key of keys.slice(0, whole)) this.used.push(key);
    return beginning;
  };

  /** Throws BadInput where outcomes of some of these trials are not in the store. */
  refuseMissing(trials: readonly Trial[]): void {
    const outcomes = trials.map((trial) => this.#have(keyOf(trial)));
    if (outcomes.includes(undefined)) refuseMissing(outcomes);
  }

  #have(key: string): TrialOutcome | undefined {
    return this.#known.get(key) ?? this.#options.store?.get(key);
  }

  async #work(
    trials: readonly Trial[],
    keys: readonly string[],
    outcomes: (TrialOutcome | undefined)[],
    advance: () => boolean,
  ): Promise<void> {
    const abort = new AbortController();
    let next = 0;
    await new Promise<void>((resolve, reject) => {
      let over = this.#stopped;
      const end = (settle: () => void): void => {
        if (over) return;
        over = true;
        this.#stop = null;
        abort.abort();
        settle();
      };
      const begin = (): void => {
        while (next < trials.length && outcomes[next] !== undefined) next += 1;
        if (over || next >= trials.length) return;
        const k = next;
        next += 1;
        const key = keys[k]!;
        this.#pool.run(trials[k]!, { signal: abort.signal }).then(
          (worked) => {
            if (worked.kind === 'problems') return end(() => reject(new BadInput(worked.problems)));
            if (over) return;
            this.simulated += 1;
            this.#known.set(key, worked.outcome);
            this.#options.store?.add(key, worked.outcome);
            // The same trial may stand in the list more than once.
            for (let j = k; j < keys.length; j += 1) {
              if (keys[j] !== key || outcomes[j] !== undefined) continue;
              outcomes[j] = worked.outcome;
              this.#done += 1;
            }
            this.#tell();
            if (advance()) return end(resolve);
            begin();
          },
          (error: unknown) => end(() => reject(error)),
        );
      };
      this.#stop = () => end(() => reject(new Stopped('stopped')));
      if (this.#stopped) {
        reject(new Stopped('stopped'));
        return;
      }
      for (let w = 0; w < this.#workers; w += 1) begin();
    });
  }

  #tell(): void {
    this.#options.onProgress?.(this.#done, this.#wanted);
  }

  /** Ends what is running; outcomes in the store stay. */
  stop(): void {
    this.#stopped = true;
    this.#stop?.();
  }

  async close(): Promise<void> {
    await this.#pool.destroy();
  }
}

function refuseMissing(outcomes: readonly (TrialOutcome | undefined)[]): never {
  const missing = outcomes.flatMap((outcome, k) => (outcome === undefined ? [k + 1] : []));
  const shown = missing.slice(0, 5).join(', ');
  throw new BadInput([
    {
      severity: 'error',
      found: `parts without ${missing.length} of ${outcomes.length} trials (${shown}${missing.length > 5 ? ', …' : ''})`,
      expected: 'parts that hold every trial between them',
      mend: 'run the missing part again with --resume, and name all parts',
    },
  ]);
}
