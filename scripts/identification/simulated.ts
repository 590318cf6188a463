import { readTextFile } from '../../src/cli/disk/files.ts';
import type { Result } from '../../src/engine/result.ts';
import { type ReadScenario, readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import type { Branch } from '../../src/scenario/text/document.ts';
import { simulatedFor } from '../../src/studies/fit/simulated.ts';
import type { IdentificationBench } from './benches.ts';
import { streamsWanted } from './measured.ts';

const trees = new Map<string, Branch>();
const texts = new Map<string, ReturnType<typeof readTextFile>>();

function kept(path: string): ReturnType<typeof readTextFile> {
  const known = texts.get(path) ?? readTextFile(path);
  texts.set(path, known);
  return known;
}

/** The bench's scenario with these changes. */
export function benchWith({ name }: IdentificationBench, changes: readonly Change[]): ReadScenario {
  return readScenario(`scenarios/${name}.yaml`, { files: kept, changes, trees });
}

/** What it shows on the channels that are read there. */
export function simulatedWith(bench: IdentificationBench, changes: readonly Change[]): Result {
  return simulatedFor(streamsWanted(bench), benchWith(bench, changes).scenario, null);
}
