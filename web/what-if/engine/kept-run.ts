/** A kept run in the worker: read again, under changes, from the texts it was made from. */
import { BadInput } from '../../../src/base/problem.ts';
import { KeptSource } from '../../../src/bundle/kept-source.ts';
import { prepare, scenarioOf } from '../../../src/request/prepare.ts';
import type { RunRequest } from '../../../src/request/run-request.ts';
import { run } from '../../../src/run.ts';
import { writtenInto } from '../../../src/scenario/changes/write-into.ts';
import type { LimitRow } from '../../../src/scenario/limit-row.ts';
import { type ReadScenario, readLimitsText } from '../../../src/scenario/read.ts';
import type { Change } from '../../../src/scenario/scenario.ts';
import { nearestWords } from '../../../src/scenario/text/nearest.ts';
import { lasting } from '../../../src/studies/trials/replay.ts';
import { type Lever, leverOf } from './lever.ts';
import type { Kept, Ran } from './order.ts';

export class KeptRun {
  readonly read: ReadScenario;
  readonly #request: RunRequest;
  readonly #source: KeptSource;
  readonly #shippedLimits: readonly LimitRow[];

  constructor({ request, inputs, shippedLimits }: Kept) {
    this.#request = request;
    this.#source = new KeptSource(inputs);
    this.#shippedLimits = readLimitsText(shippedLimits.file, shippedLimits.text);
    this.read = scenarioOf(request, this.#source, { shippedLimits: this.#shippedLimits }).read;
  }

  lever(path: string): Lever {
    const lever = leverOf(path, this.read);
    if (lever !== null) return lever;
    const near = nearestWords(path, [...this.read.paths]);
    throw new BadInput([
      {
        severity: 'error',
        path,
        found: `path ${path}`,
        expected: 'a path of the scenario, for example trays.capacitance or trays.T4.capacitance',
        mend: near.length === 0 ? 'the command check --paths lists them all' : `nearest: ${near.join(', ')}`,
      },
    ]);
  }

  /** Runs it as the command line would with these changes behind, and in place of, those it was run with. */
  run(changes: readonly Change[], onProgress: (fraction: number) => void): Omit<Ran, 'wall_s'> {
    const asked = changes.map((change) => ({ ...change, option: '--set' }));
    const request = { ...this.#request, changes: lasting([...this.#request.changes, ...asked]) };
    const { scenario, recorded, measured, warnings } = prepare(request, this.#source, {
      shippedLimits: this.#shippedLimits,
    });
    const { report, result } = run(scenario, recorded, {
      doubt: request.doubt,
      ...(measured === undefined ? {} : { measured }),
      onProgress,
    });
    return { report, result, scenario, warnings };
  }

  write(changes: readonly Change[]): string | null {
    const { scenario, load, changes: before } = this.#request;
    if (load !== null) return null;
    return writtenInto(this.#source.text(scenario).text, [...before, ...changes]);
  }
}
