/** A kept run in the worker: read again, under changes, from the texts it was made from. */
import { BadInput } from '../../../src/base/problem.ts';
import { KeptSource } from '../../../src/bundle/kept-source.ts';
import { type PrepareOptions, prepare, scenarioOf } from '../../../src/request/prepare.ts';
import type { RunRequest } from '../../../src/request/run-request.ts';
import { run } from '../../../src/run.ts';
import { writtenInto } from '../../../src/scenario/changes/write-into.ts';
import type { ReadScenario } from '../../../src/scenario/read.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { lasting } from '../../../src/studies/trials/replay.ts';
import { type Lever, leverOf } from './lever.ts';
import type { Kept, Ran } from './order.ts';

export class KeptRun {
  readonly read: ReadScenario;
  readonly #request: RunRequest;
  readonly #source: KeptSource;
  readonly #options: PrepareOptions;

  constructor({ request, inputs, shippedLimits }: Kept) {
    this.#request = request;
    this.#source = new KeptSource(inputs);
    this.#options = { shippedLimits, trees: new Map() };
    this.read = this.#read(request.changes);
  }

  /** Throws what the reader says of a change that names what is no path. */
  lever(path: string): Lever {
    const lever = leverOf(path, this.read);
    if (lever !== null) return lever;
    const { changes } = this.#request;
    this.#read([...changes, { path, value: '', option: '--set' }]);
    throw new RangeError(`a change of ${path} is read, and is no lever`);
  }

  /** Runs it as the command line would with these changes behind, and in place of, those it was run with. */
  run(changes: readonly Change[], onProgress: (fraction: number) => void): Omit<Ran, 'wall_s'> {
    const asked = changes.map((change) => ({ ...change, option: '--set' }));
    const request = { ...this.#request, changes: lasting([...this.#request.changes, ...asked]) };
    const { scenario, recorded, measured, warnings } = prepare(request, this.#source, this.#options);
    const { report, result } = run(scenario, recorded, {
      doubt: request.doubt,
      ...(measured === undefined ? {} : { measured }),
      onProgress,
    });
    return { report, result, scenario, warnings };
  }

  /** Runs a moment of it, so that the code is compiled before someone waits for it; a long recording is not read for that. */
  rehearse(): void {
    const { load, measured } = this.#request;
    if (load !== null || measured !== null || this.read.scenario.load.kind === 'recorded') return;
    try {
      this.run([{ path: 'duration', value: '0.2 s' }], () => {});
    } catch (error) {
      // Some runs are none when they are short: an event behind the end.
      if (!(error instanceof BadInput)) throw error;
    }
  }

  write(changes: readonly Change[]): string | null {
    const { scenario, load, changes: before } = this.#request;
    const { text } = this.#source.text(scenario);
    return load !== null || text === null ? null : writtenInto(text, [...before, ...changes]);
  }

  #read(changes: RunRequest['changes']): ReadScenario {
    return scenarioOf({ ...this.#request, changes }, this.#source, this.#options).read;
  }
}
