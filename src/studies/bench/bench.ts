/**
 * The bench: carries out the trials of a study on all cores. Outcomes depend on the trial alone, and whether enough
 * is known is asked only of unbroken beginnings in the order of the trials: the same answers whatever the
 * number of threads, and whether or not some outcomes were found before.
 */
import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';
import { BadInput } from '../../base/problem.ts';
import { built } from '../../home.ts';
import { keyOf, type Place } from '../trials/key.ts';
import type { Done, OutcomeOf, RunTrials, Trial, TrialKind } from '../trials/trial.ts';
import { inBatches } from './batches.ts';
import { Outcomes } from './outcomes.ts';
import type { FileText } from './shelf.ts';
import type { Store } from './store.ts';
import type { Worked } from './work.ts';

export interface BenchOptions {
  /** Threads; all cores by default. */
  readonly workers?: number;
  readonly store?: Store;
  /** What was found elsewhere, where there is no store. */
  readonly known?: Outcomes;
  /** Carry nothing out: what is not in the store is missing. For parts that were run elsewhere. */
  readonly offline?: boolean;
  /** What standard input said: threads cannot read it again. */
  readonly typed?: FileText | null;
  /** Trials finished and trials known to be wanted, each time one of them grows. */
  readonly onProgress?: (done: number, wanted: number) => void;
}

/** A trial that cannot be carried out as it is asked for: whatever mends it makes another study of it. */
export class RefusedTrial extends BadInput {}

/** Thrown out of `run` when somebody stopped the bench. */
export class Stopped extends Error {}

export class Bench {
  #pool: Piscina<readonly Trial[], Worked> | null = null;
  readonly #workers: number;
  readonly #options: BenchOptions;
  readonly #known: Outcomes;
  /** All trials that a caller got an outcome for, in their order. */
  readonly used: Place[] = [];
  /** Trials that were carried out here, not found in the store. */
  carriedOut = 0;
  #done = 0;
  #wanted = 0;
  #stop: (() => void) | null = null;
  #stopped = false;

  constructor(options: BenchOptions = {}) {
    this.#options = options;
    this.#workers = options.workers ?? availableParallelism();
    this.#known = options.known ?? new Outcomes();
  }

  /** Outcomes of the trials in their order; see RunTrials. */
  readonly run: RunTrials = async <K extends TrialKind>(
    trials: readonly Trial<K>[],
    enough: (beginning: readonly OutcomeOf<K>[]) => boolean = () => false,
  ): Promise<readonly OutcomeOf<K>[]> => {
    const places = trials.map((trial) => ({ kind: trial.kind, key: keyOf(trial) }));
    const outcomes = places.map(({ kind, key }) => this.#have(kind, key));
    this.#wanted += trials.length;
    this.#done += outcomes.filter((outcome) => outcome !== undefined).length;
    this.#tell();
    const beginning: OutcomeOf<K>[] = [];
    /** Moves the end of the unbroken beginning; true once it tells enough. */
    const advance = (): boolean => {
      for (let k = beginning.length; k < places.length; k += 1) {
        const { kind, key } = places[k]!;
        outcomes[k] ??= this.#have(kind, key);
        const next = outcomes[k];
        if (next === undefined) return false;
        beginning.push(next);
        if (enough(beginning)) return true;
      }
      return true;
    };
    if (!advance()) {
      if (this.#options.offline === true) this.refuseMissing(trials);
      const batches = inBatches(places, (k) => outcomes[k] === undefined, this.#workers);
      await this.#work(batches, trials, places, advance);
    }
    this.#wanted += beginning.length - trials.length;
    this.used.push(...places.slice(0, beginning.length));
    return beginning;
  };

  /** Throws BadInput where outcomes of some of these trials were not found before. */
  refuseMissing(trials: readonly Trial[]): void {
    const missing = trials.flatMap((trial, k) =>
      this.#have(trial.kind, keyOf(trial)) === undefined ? [k + 1] : [],
    );
    if (missing.length === 0) return;
    const shown = missing.slice(0, 5).join(', ');
    throw new BadInput([
      {
        severity: 'error',
        file: '--merge',
        found: `parts without ${missing.length} of ${trials.length} trials (${shown}${missing.length > 5 ? ', …' : ''})`,
        expected: 'parts that hold every trial between them',
        mend: 'run the missing part again with --resume, and name all parts',
      },
    ]);
  }

  /** Threads begin with the first trial that is carried out: what is only looked up needs none. */
  #threads(): Piscina<readonly Trial[], Worked> {
    this.#pool ??= new Piscina({
      filename: built('studies/bench/work.ts').href,
      name: 'work',
      minThreads: 1,
      maxThreads: this.#workers,
      // Flags of this process, a loader among them, are not for threads: they run as built.
      execArgv: [],
      workerData: this.#options.typed ?? null,
    });
    return this.#pool;
  }

  #have<K extends TrialKind>(kind: K, key: string): OutcomeOf<K> | undefined {
    return this.#options.store === undefined
      ? this.#known.get(kind, key)
      : this.#options.store.get(kind, key);
  }

  #keep(key: string, done: Done): void {
    this.carriedOut += 1;
    this.#done += 1;
    if (this.#options.store === undefined) this.#known.set(key, done);
    else this.#options.store.add(key, done);
  }

  /** Hands the batches out in their order, one to a thread, until `advance` says that enough is known. */
  async #work(
    batches: readonly (readonly number[])[],
    trials: readonly Trial[],
    places: readonly Place[],
    advance: () => boolean,
  ): Promise<void> {
    const abort = new AbortController();
    const threads = this.#threads();
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
        const batch = batches[next];
        if (over || batch === undefined) return;
        next += 1;
        threads
          .run(
            batch.map((k) => trials[k]!),
            { signal: abort.signal },
          )
          .then((worked) => {
            if (worked.kind === 'problems') return end(() => reject(new RefusedTrial(worked.problems)));
            if (over) return;
            worked.done.forEach((done, j) => {
              this.#keep(places[batch[j]!]!.key, done);
            });
            this.#tell();
            if (advance()) return end(resolve);
            begin();
          })
          // Also where an outcome cannot be kept: a disk that is full.
          .catch((error: unknown) => end(() => reject(error)));
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
    await this.#pool?.destroy();
  }
}
