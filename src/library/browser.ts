/**
 * Buswake as a library in a browser: `import { run } from 'buswake/browser'`, one module that needs nothing else.
 *
 * It carries the scenarios and models that come with the package; recordings, and files of one's own, are handed over as
 * `files`. `run` computes and returns, as a function does: call it in a worker, so that the page stays awake. Controllers of
 * one's own and recordings in Parquet are for Node. The numbers are those of Node, to the bit.
 */
import { BadInput } from '../base/problem.ts';
import { changedSince } from '../bundle/changed-since.ts';
import { decodeBundle } from '../bundle/decode.ts';
import { type Bundle, manifestName } from '../bundle/format.ts';
import { readManifestText } from '../bundle/manifest-text.ts';
import type { LimitsText } from '../scenario/read.ts';
import type { CheckAsk, Files, RunAsk } from './ask.ts';
import { GivenFiles } from './given-files.ts';
import { type Checked, checkFrom, type Judged, runFrom } from './judged.ts';
import { refuseWrong } from './refuse-wrong.ts';

export * from './both.ts';

/** Texts of the scenarios and models that come with the package, by path; written in by the build. */
declare const SHIPPED_TEXTS: Readonly<Record<string, string>>;

const limitsName = 'models/limits-default.yaml';

/** Names of the scenarios that come with the package. */
export const scenarios: readonly string[] = Object.keys(SHIPPED_TEXTS).flatMap(
  (path) => /^scenarios\/(.*)\.yaml$/.exec(path)?.[1] ?? [],
);

/** Reads a scenario and every file that it names; runs nothing. Throws BadInput with every problem found. */
export function check(scenario: string, ask: CheckAsk = {}): Checked {
  refuseWrong('check', scenario, ask);
  return checkFrom(sourceOf(ask), fileOf(scenario), ask, shippedLimits());
}

/** Simulates a scenario and judges it by its limits. Throws BadInput with every problem found, before it begins. */
export function run(scenario: string, ask: RunAsk = {}): Judged {
  refuseWrong('run', scenario, ask);
  return runFrom(sourceOf(ask), fileOf(scenario), ask, shippedLimits());
}

/** A run that was kept, from the files of its directory by name, checked against their sums. Throws BadInput where one was changed. */
export function readBundle(files: Readonly<Record<string, Uint8Array>>): Bundle {
  const manifest = readManifestText(files[manifestName] ?? new Uint8Array(), manifestName);
  const problems = manifest.files.flatMap((entry) => {
    const bytes = files[entry.name];
    return bytes === undefined ? [] : changedSince(entry, bytes, entry.name);
  });
  if (problems.length > 0) throw new BadInput(problems);
  return decodeBundle(manifest, new Map(Object.entries(files)));
}

function fileOf(scenario: string): string {
  const shipped = `scenarios/${scenario}.yaml`;
  return Object.hasOwn(SHIPPED_TEXTS, shipped) ? shipped : scenario;
}

function sourceOf({ files = {} }: { readonly files?: Files }): GivenFiles {
  return new GivenFiles({ ...SHIPPED_TEXTS, ...files }, null);
}

function shippedLimits(): LimitsText {
  return { file: limitsName, text: SHIPPED_TEXTS[limitsName]! };
}
