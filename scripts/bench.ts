/**
 * `npm run bench`: how fast the engine is, as ratios within one run. Nothing here is a test: a loaded machine
 * gives other numbers, so look at the ratios and close other programs first.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { readTextFile } from '../src/disk/read-file.ts';
import { advance, firmwareAgenda } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import type { KernelChoice } from '../src/engine/fast/kernel-form.ts';
import { simulate } from '../src/engine/simulate.ts';
import { levelsOf } from '../src/limits/levels.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { readScenario } from '../src/scenario/read.ts';
import { Independent } from '../tests/engine/independent.ts';
import { denseRatios } from './bench-dense.ts';
import { sharesOf } from './bench-shares.ts';
import { largeScenario } from './large-cabinet.ts';

const rounds = 3;

/** Best of a few rounds, after one to warm up [s]. */
function best(work: () => number): number {
  work();
  return Math.min(...Array.from({ length: rounds }, work));
}

function timed(work: () => void): number {
  const start_ms = performance.now();
  work();
  return (performance.now() - start_ms) / 1000;
}

function row(what: string, value: string): void {
  console.log(`${what.padEnd(64)} ${value}`);
}

const { scenario } = readScenario('scenarios/pulse-train.yaml', { files: readTextFile });
const levels_V = levelsOf(scenario.limits, scenario.nominal_V);

/** The cabinet under its pulse train for `span_s`, nothing looking on. */
function bare(kernel: KernelChoice, span_s: number): { readonly wall_s: number; readonly steps: number } {
  const cabinet = ready(assemble(scenario), makeDemand(scenario), 1, kernel);
  const wall_s = timed(() => {
    advance(cabinet, firmwareAgenda(cabinet, 0), 0, Math.round(span_s / scenario.tick_s), null);
  });
  return { wall_s, steps: cabinet.steps };
}

const span_s = 16;
let steps = 0;
const fast_s = best(() => {
  const { wall_s, steps: taken } = bare('fast', span_s);
  steps = taken;
  return wall_s;
});
const plain_s = best(() => bare('plain', span_s).wall_s);
row('reference cabinet, compiled kernel, bare: times real time', (span_s / fast_s).toFixed(1));
row('  ns per step', ((fast_s / steps) * 1e9).toFixed(0));
row('  steps per simulated second', (steps / span_s).toFixed(0));
row('  plain loops over compiled kernel', (plain_s / fast_s).toFixed(2));

const settled = { ...scenario, start: 'settled' as const, duration_s: span_s };
const recorded_s = best(() =>
  timed(() => {
    simulate(assemble(settled), makeDemand(settled), { levels_V });
  }),
);
row('recording and all meters on: times real time', (span_s / recorded_s).toFixed(1));
row('  over bare', (recorded_s / fast_s).toFixed(2));

for (const [part, share] of await sharesOf(() => {
  simulate(assemble(settled), makeDemand(settled), { levels_V });
})) {
  if (share >= 0.005) row(`  of which ${part}`, share.toFixed(2));
}

for (const [what, ratio] of denseRatios((work) => best(() => timed(work))))
  row(`172 states, plain over compiled: ${what}`, ratio.toFixed(2));

const command = ['scripts/buswake.mjs', 'run', 'pulse-train', '--set', 'duration=10 s', '--json'];
const command_s = best(() => timed(() => spawnSync('node', command)));
const start_s = best(() => timed(() => spawnSync('node', [command[0]!, '--version'])));
const node_s = best(() => timed(() => spawnSync('node', ['-e', '0'])));
row('whole command on 10 s of it: times real time', (10 / command_s).toFixed(1));
row('  seconds from the shell', command_s.toFixed(2));
row('  share of starting the program', (start_s / command_s).toFixed(2));
row('  starting the program over starting node', (start_s / node_s).toFixed(2));
// In a process of its own: nothing of it is compiled yet.
const stages = spawnSync('node', ['--import', 'tsx', 'scripts/bench-command.ts'], { encoding: 'utf8' });
process.stdout.write(stages.stdout.replaceAll(/^/gm, '  ').trimEnd().concat('\n'));

// The same work by a general-purpose library (odex, extrapolation) at the accuracy it needs to be stable: its
// tolerance hardly changes its time, the network's fast poles bound its steps.
const step = readScenario('scenarios/single-step.yaml', { files: readTextFile }).scenario;
const from = Math.round(0.0995 / step.tick_s);
const until = Math.round(0.1055 / step.tick_s);
const other = new Independent(step, makeDemand(step));
other.reach(from);
const odex_s = timed(() => other.reach(until));
const engine_s = best(() => {
  const cabinet = ready(assemble(step), makeDemand(step), 1);
  const agenda = firmwareAgenda(cabinet, 0);
  advance(cabinet, agenda, 0, from, null);
  return timed(() => {
    advance(cabinet, agenda, from, until, null);
  });
});
row('6 ms around the 1 ms step: general-purpose library over engine', (odex_s / engine_s).toFixed(0));

// Memory that grows with time: two lengths, the difference over the difference. The recorder is full in both.
const heldAfter = (duration_s: number): number => {
  const part = { ...settled, duration_s };
  const result = simulate(assemble(part), makeDemand(part), { levels_V });
  globalThis.gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return result.counters.steps > 0 ? heapUsed + arrayBuffers : 0;
};
const [short, long] = [heldAfter(64), heldAfter(192)];
row(
  'memory that grows with the run, MB per simulated hour',
  ((((long - short) / 128) * 3600) / 1e6).toFixed(0),
);

// One cabinet of N times the units on bars N times as long: cost of a step once everything has run warm.
const sizes = [1, 2, 4, 8, 16, 32, 64];
const costs = sizes.map((size) => {
  const large = largeScenario(size);
  const cabinet = ready(assemble(large), makeDemand(large), 1);
  const agenda = firmwareAgenda(cabinet, 0);
  const ticks = (time_s: number): number => Math.round(time_s / large.tick_s);
  advance(cabinet, agenda, 0, ticks(0.1), null);
  const before = cabinet.steps;
  const wall_s = timed(() => {
    advance(cabinet, agenda, ticks(0.1), ticks(0.3), null);
  });
  return { size, step_s: wall_s / (cabinet.steps - before), span_s: wall_s };
});
for (const { size, step_s, span_s } of costs) {
  const [one] = costs;
  row(
    `${size} cabinets' units in one network: cost of a step over one cabinet's, per cabinet`,
    (step_s / one!.step_s / size).toFixed(2),
  );
  if (size === 64) row('  of the same span', (span_s / one!.span_s / size).toFixed(2));
}
const logs = costs.map(({ size, step_s }) => [Math.log(size), Math.log(step_s)] as const);
const mean = (k: 0 | 1): number => logs.reduce((sum, pair) => sum + pair[k], 0) / logs.length;
const slope =
  logs.reduce((sum, [x, y]) => sum + (x - mean(0)) * (y - mean(1)), 0) /
  logs.reduce((sum, [x]) => sum + (x - mean(0)) ** 2, 0);
row('  growth exponent of a step, from 1 to 64', slope.toFixed(2));

// An hour at 10 Hz, as a command: its time and the most memory it held.
const folder = mkdtempSync(join(tmpdir(), 'bench-'));
const hour = join(folder, 'hour.csv');
spawnSync('node', ['--import', 'tsx', 'scripts/long-recording.ts', hour, '36101', '10']);
const tell = 'data:text/javascript,process.on("exit",()=>console.error(process.resourceUsage().maxRSS))';
const hourCommand = ['--import', tell, 'scripts/buswake.mjs', 'run', 'pulse-train', '--load', hour];
const reading = ['--at', 'sled', '--side', 'dc', '--copies', '16', '--set', 'duration=3600 s', '--json'];
let most_MB = 0;
const hour_s = timed(() => {
  const { stdout, stderr } = spawnSync('node', [...hourCommand, ...reading], { encoding: 'utf8' });
  const { window_s } = JSON.parse(stdout) as { window_s: { to: number } };
  if (window_s.to !== 3600) throw new Error(`the hour ended at ${window_s.to} s`);
  most_MB = Math.max(0, ...stderr.trim().split('\n').map(Number).filter(Number.isFinite)) / 1e3;
});
rmSync(folder, { recursive: true });
row('an hour of recorded load, whole command: times real time', (3600 / hour_s).toFixed(0));
row('  seconds', hour_s.toFixed(0));
row('  most memory held, MB', most_MB.toFixed(0));
