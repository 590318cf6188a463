import { readTextFile } from '../../src/disk/read-file.ts';
import type { Curves } from '../../src/measured/curve/curve.ts';
import { type ReadScenario, readScenario } from '../../src/scenario/read.ts';
import type { Change } from '../../src/scenario/scenario.ts';
import type { Branch } from '../../src/scenario/text/document.ts';
import { simulatedFor } from '../../src/studies/fit/simulated.ts';
import type { IdentificationBench } from './benches.ts';
import { everyStep, type Rows } from './every-step.ts';
import { channelsWanted } from './measured.ts';

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

/** What it shows on the channels that are read there, as a fit takes it. */
export function simulatedWith(bench: IdentificationBench, changes: readonly Change[]): Curves {
  return simulatedFor(channelsWanted(bench), benchWith(bench, changes).scenario, null);
}

/** The same at every step, as a measurement is made of it. */
export function stepsWith(bench: IdentificationBench, changes: readonly Change[]): Rows {
  const channels = bench.probes.map(({ channel }) => channel);
  return everyStep(benchWith(bench, changes).scenario, channels);
}
