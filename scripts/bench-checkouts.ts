/**
 * What a step costs in two checkouts, taken in turn in one process so that both see the same machine:
 *
 *   node --import tsx scripts/bench-checkouts.ts OTHER
 *
 * OTHER is the folder of another checkout that has been built. A round runs each once, in turn first; given are the best
 * processor times of a step in both, and the median of the rounds' ratios of this checkout over the other. In a whole trial
 * of a study reading, settling, the look at the linear model and judging are shared out over its steps.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';

type Kernel = 'fast' | 'plain';

interface Checkout {
  /** Processor time of a step [ns], nothing looking on, from the settled start on. */
  bare(scenario: string, span_s: number, kernel: Kernel): number;
  /** The same with recorder and meters. */
  watched(scenario: string, span_s: number, kernel: Kernel): number;
  /** Processor time of a step of a study's trial, from its files to its outcome. */
  trial(scenario: string, span_s: number): number;
}

const source = `
import { advance } from './src/engine/advance.ts';
import { firmwareAgenda } from './src/engine/firmware-agenda.ts';
import { ready } from './src/engine/cabinet.ts';
import { simulate } from './src/engine/simulate.ts';
import { levelsOf } from './src/limits/levels.ts';
import { makeDemand } from './src/loads/make-demand.ts';
import { assemble } from './src/network/network.ts';
import { scenarioToRun } from './src/cli/options/scenario-to-run.ts';
import { DiskSource } from './src/bundle/disk-source.ts';
import { Shelf } from './src/studies/bench/shelf.ts';
import { runWhole } from './src/studies/bench/run-whole.ts';

function step_ns(work) {
  const before = process.cpuUsage().user;
  const steps = work();
  return ((process.cpuUsage().user - before) / steps) * 1e3;
}

export function bare(name, span_s, kernel) {
  const { scenario, recorded } = scenarioToRun(name, []);
  const cabinet = ready(assemble(scenario), makeDemand(scenario, recorded ?? undefined), 1, kernel);
  const agenda = firmwareAgenda(cabinet, 0);
  return step_ns(() => {
    advance(cabinet, agenda, 0, Math.round(span_s / scenario.tick_s), null);
    return cabinet.steps;
  });
}

export function watched(name, span_s, kernel) {
  const { scenario: whole, recorded } = scenarioToRun(name, []);
  const scenario = { ...whole, start: 'settled', duration_s: span_s };
  const levels_V = levelsOf(scenario.limits, scenario.nominal_V);
  const [network, demand] = [assemble(scenario), makeDemand(scenario, recorded ?? undefined)];
  return step_ns(() => simulate(network, demand, { levels_V, kernel }).counters.steps);
}

const shelf = new Shelf(new DiskSource());

export function trial(name, span_s) {
  const changes = [{ path: 'duration', value: span_s + ' s' }];
  const trial = { scenario: 'scenarios/' + name + '.yaml', changes };
  return step_ns(() => runWhole(shelf, trial).ran.result.counters.steps);
}
`;

const folder = mkdtempSync(join('node_modules', 'bench-'));

async function checkout(root: string, name: string): Promise<Checkout> {
  const outfile = resolve(folder, `${name}.mjs`);
  await build({
    stdin: { contents: source, resolveDir: resolve(root), loader: 'ts' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    packages: 'external',
    outfile,
  });
  return (await import(outfile)) as Checkout;
}

const rounds = 25;

function compare(what: keyof Checkout, scenario: string, span_s: number, kernel: Kernel): void {
  const best = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const ratios: number[] = [];
  for (let round = 0; round <= rounds; round++) {
    const took = [0, 0];
    for (const k of round % 2 === 0 ? [0, 1] : [1, 0]) {
      took[k] = both[k]![what](scenario, span_s, kernel);
      // The first round warms up.
      if (round > 0) best[k] = Math.min(best[k]!, took[k]!);
    }
    if (round > 0) ratios.push(took[1]! / took[0]!);
  }
  ratios.sort((a, b) => a - b);
  const median = ratios[Math.floor(ratios.length / 2)]!;
  console.log(
    `${what.padEnd(8)} ${kernel.padEnd(6)} ${scenario.padEnd(20)} ${best.map((ns) => ns.toFixed(0).padStart(6)).join(' ')} ns  median ratio ${median.toFixed(3)}`,
  );
}

const [other] = process.argv.slice(2);
if (other === undefined) throw new RangeError('name the folder of the other checkout');
const both = [await checkout(other, 'other'), await checkout('.', 'this')];
rmSync(folder, { recursive: true });
console.log('                                     other   this');
for (const what of ['bare', 'watched'] as const) {
  // Long enough that the clock of processor time, which ticks in milliseconds, tells them apart.
  compare(what, 'pulse-train', 6, 'fast');
  compare(what, 'recorded-training', 6, 'fast');
  compare(what, 'pulse-train', 3, 'plain');
}
for (const [name, span_s] of [
  ['single-step', 0.3],
  ['bench-step', 0.3],
  ['pulse-train', 5],
] as const)
  compare('trial', name, span_s, 'fast');
