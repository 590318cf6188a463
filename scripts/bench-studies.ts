/**
 * How fast a study runs: samples of the shipped spread (5 s of the single step) on one worker and on two, in
 * turns, so that what else the machine does meets both alike. Each thread compiles its code by itself over its first
 * few runs, about a second each: with 100 samples two workers seem 1.6 times one, over a study of 400 they are 1.9.
 *
 *   node --import tsx scripts/bench-studies.ts [samples] [rounds]
 */
import { availableParallelism, loadavg } from 'node:os';
import { DiskSource } from '../src/bundle/disk-source.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { Bench } from '../src/studies/bench/bench.ts';
import { Shelf } from '../src/studies/bench/shelf.ts';
import { planSpread } from '../src/studies/spread/plan.ts';
import { readStudy } from '../src/studies/written/read-study.ts';

const [samples = 400, rounds = 2] = process.argv.slice(2).map(Number);
const shelf = new Shelf(new DiskSource());
const study = readStudy('scenarios/studies/tolerances.yaml', 'spread', readTextFile);
const words = new Map([...study.words, ['samples', String(samples)]]);
const { trials } = planSpread({ ...study, words }, (trial) => shelf.read(trial));

/** Wall time of all samples [s], without and with the start of the workers. */
async function timed(workers: number): Promise<{ readonly run_s: number; readonly whole_s: number }> {
  const start_ms = performance.now();
  const bench = new Bench({ workers });
  // As many as there are workers, so that each has loaded its code.
  await bench.run(trials.slice(0, workers));
  const warm_ms = performance.now();
  await bench.run(trials.slice(workers));
  const end_ms = performance.now();
  await bench.close();
  return {
    run_s: ((end_ms - warm_ms) / 1000 / (trials.length - workers)) * trials.length,
    whole_s: (end_ms - start_ms) / 1000,
  };
}

const middle = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

console.log(`${samples} samples of 5 s, ${availableParallelism()} cores, load ${loadavg()[0]!.toFixed(2)}`);
const ratios: number[] = [];
const wholes: number[] = [];
for (let round = 1; round <= rounds; round++) {
  const one = await timed(1);
  const two = await timed(2);
  ratios.push(one.run_s / two.run_s);
  wholes.push(two.run_s);
  console.log(
    `round ${round}: one worker ${one.run_s.toFixed(1)} s, two ${two.run_s.toFixed(1)} s: ${(one.run_s / two.run_s).toFixed(2)} times; ` +
      `start of two ${(two.whole_s - two.run_s).toFixed(1)} s; load ${loadavg()[0]!.toFixed(2)}`,
  );
}
console.log(
  `middle: two workers are ${middle(ratios).toFixed(2)} times one; 1000 samples take ${((middle(wholes) / samples) * 1000).toFixed(0)} s on two`,
);
