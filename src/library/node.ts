/**
 * Buswake as a library in Node: `import { run } from 'buswake'`.
 *
 * A scenario is a path or the name of one that comes with the package. `run` computes and returns, as a function does: where
 * that must not hold a program up, call it in a worker thread. Studies use threads of their own and give a promise.
 */
import { thisBuild } from '../bundle/build.ts';
import { DiskSource } from '../bundle/disk-source.ts';
import type { Bundle } from '../bundle/format.ts';
import { packInput } from '../bundle/pack-input.ts';
import { readBundle as readBundleOf } from '../bundle/read.ts';
import { checkTarget, writeBundle } from '../bundle/write.ts';
import { scenarioFile } from '../shipped/scenario-named.ts';
import { shippedLimitsText } from '../shipped/shipped-limits.ts';
import { type CheckAsk, type RunAsk, requestOf } from './ask.ts';
import { GivenFiles } from './given-files.ts';
import { type Checked, checkFrom, type Judged, runFrom } from './judged.ts';
import { refuseNoPath, refuseWrong } from './refuse-wrong.ts';

export type {
  HandoverController,
  HandoverInput,
  HandoverSetup,
  ShareController,
  ShareInput,
  ShareSetup,
  SmoothingController,
  SmoothingInput,
  SmoothingSetup,
  VoltageController,
  VoltageInput,
  VoltageSetup,
} from '../firmware/user/contract.ts';
export type { DutyReport } from '../studies/duty/report.ts';
export type { MatrixReport } from '../studies/matrix/report.ts';
export type { RatingReport } from '../studies/rating/report.ts';
export type { SizeReport } from '../studies/size/report.ts';
export type { SpreadReport } from '../studies/spread/report.ts';
export * from './both.ts';
export { duty, matrix, rating, type SizeAsk, type StudyAsk, size, spread } from './studies.ts';

/** What is asked of `run` in Node. */
export interface KeptRunAsk extends RunAsk {
  /** Directory in which the run is kept, with all that made it, as the option `--out` of the command does. */
  readonly out?: string;
  /** Overwrite a run kept in that directory. */
  readonly force?: boolean;
}

/** Reads a scenario and every file that it names; runs nothing. Throws BadInput with every problem found. */
export function check(scenario: string, ask: CheckAsk = {}): Checked {
  refuseWrong('check', scenario, ask);
  return checkFrom(sourceOf(ask).given, fileOf(scenario, ask), ask, shippedLimitsText());
}

/** Simulates a scenario and judges it by its limits. Throws BadInput with every problem found, before it begins. */
export function run(scenario: string, ask: KeptRunAsk = {}): Judged {
  refuseWrong('runInNode', scenario, ask);
  const { out, force = false } = ask;
  if (out !== undefined) checkTarget(out, { force });
  const file = fileOf(scenario, ask);
  const { given, disk } = sourceOf(ask);
  const judged = runFrom(given, file, ask, shippedLimitsText());
  if (out !== undefined && judged.report.status !== 'stopped') {
    const onDisk = disk.kept();
    const inputs = [...onDisk, ...given.read.map((input, k) => packInput(input, onDisk.length + k + 1))];
    const provenance = { request: requestOf(file, ask), inputs, build: thisBuild() };
    writeBundle(out, { ...judged, provenance }, { force });
  }
  return judged;
}

/** A run that was kept in a directory, its files checked against their sums. Throws BadInput where one was changed. */
export function readBundle(dir: string): Bundle {
  refuseNoPath(dir);
  return readBundleOf(dir);
}

function fileOf(scenario: string, { files = {} }: CheckAsk): string {
  return Object.hasOwn(files, scenario) ? scenario : scenarioFile(scenario);
}

function sourceOf({ files = {} }: CheckAsk): { readonly given: GivenFiles; readonly disk: DiskSource } {
  const disk = new DiskSource({ keeps: true });
  return { disk, given: new GivenFiles(files, disk) };
}
