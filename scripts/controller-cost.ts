/**
 * What a controller of the user's own costs: `node --import tsx scripts/controller-cost.ts`. A call of the shipped share law for
 * eight shelves in the interpreter, and a whole run with it over the same run without. Look at the ratio: a loaded machine
 * gives other times.
 */
import { performance } from 'node:perf_hooks';
import { readTextFile } from '../src/disk/read-file.ts';
import { UserShare } from '../src/firmware/user/user-share.ts';
import { run } from '../src/run.ts';
import { readScenario } from '../src/scenario/read.ts';

const read = (name: string) =>
  readScenario(`scenarios/${name}.yaml`, {
    files: readTextFile,
    changes: [{ path: 'duration', value: '2 s' }],
  }).scenario;

function best_ms(work: () => void): number {
  work();
  return Math.min(
    ...Array.from({ length: 3 }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    }),
  );
}

const own = read('own-share');
const names = own.shelves.map((_, k) => `S${k + 1}`);
const law = new UserShare(own.controllers[0]!, {
  shelves: names,
  rated_A: names.map(() => 720),
  droop_ohm: names.map(() => 0.7e-3),
  values: own.firmware.share,
});
const calls = 5000;
const ratio = new Float64Array(names.length).fill(0.5);
const call_ms = best_ms(() => {
  for (let k = 0; k < calls; k++) law.run(k, ratio, () => true);
});
console.log(`a call for ${names.length} shelves: ${((call_ms / calls) * 1e3).toFixed(1)} µs`);
const [without, within] = ['single-step', 'own-share'].map((name) => {
  const scenario = read(name);
  return best_ms(() => void run(scenario, null));
});
console.log(`a run with it over the same run without: ${(within! / without!).toFixed(2)}`);
