/**
 * `npm run bench`: how fast the engine is, as ratios within one run, and how exact. Nothing here is a test: a loaded machine
 * gives other numbers, so look at the ratios and close other programs first. What the last bench on this machine found
 * otherwise stands beside it in brackets.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { advance } from '../src/engine/advance.ts';
import { ready } from '../src/engine/cabinet.ts';
import type { KernelChoice } from '../src/engine/fast/kernel-form.ts';
import { firmwareAgenda } from '../src/engine/firmware-agenda.ts';
import { simulate } from '../src/engine/simulate.ts';
import { levelsOf } from '../src/limits/levels.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { readScenario } from '../src/scenario/read.ts';
import { Independent } from '../tests/engine/independent.ts';
import { besideC } from './bench-beside-c.ts';
import { denseRatios } from './bench-dense.ts';
import { BenchReport } from './bench-report.ts';
import { sharesOf } from './bench-shares.ts';
import { largeScenario } from './large-cabinet.ts';
import { distanceOf, yardstickScenarios } from './yardstick.ts';

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

const report = new BenchReport();

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
report.row('reference cabinet, compiled kernel, bare: times real time', span_s / fast_s, 1);
report.part('ns per step', (fast_s / steps) * 1e9, 0);
report.part('steps per simulated second', steps / span_s, 0);
report.part('plain loops over compiled kernel', plain_s / fast_s, 2);

const beside = besideC('pulse-train');
if (beside !== null)
  report.part('a step of the kernel over the same by gcc -O2', beside.kernel_ns / beside.c_ns, 2);

const settled = { ...scenario, start: 'settled' as const, duration_s: span_s };
const recorded_s = best(() =>
  timed(() => {
    simulate(assemble(settled), makeDemand(settled), { levels_V });
  }),
);
report.row('recording and all meters on: times real time', span_s / recorded_s, 1);
const recording = scenarioToRun('recorded-training', []);
const training = { ...recording.scenario, start: 'settled' as const, duration_s: span_s };
const training_s = best(() =>
  timed(() => {
    simulate(assemble(training), makeDemand(training, recording.recorded ?? undefined), { levels_V });
  }),
);
report.part('the same of a recorded load', span_s / training_s, 1);
report.part('over bare', recorded_s / fast_s, 2);

for (const [part, share] of await sharesOf(() => {
  simulate(assemble(settled), makeDemand(settled), { levels_V });
})) {
  if (share >= 0.005) report.part(`of which ${part}`, share, 2);
}

for (const [what, ratio] of denseRatios((work) => best(() => timed(work))))
  report.row(`172 states, plain over compiled: ${what}`, ratio, 2);

for (const name of yardstickScenarios) {
  const { rms_ratio, most_ratio } = distanceOf(name);
  report.row(`${name}: node voltages against steps of an eighth, % of swing, largest`, 100 * most_ratio, 2);
  report.part('root of the mean square', 100 * rms_ratio, 3);
}

const command = ['scripts/buswake.mjs', 'run', 'pulse-train', '--set', 'duration=10 s', '--json'];
const command_s = best(() => timed(() => spawnSync('node', command)));
const start_s = best(() => timed(() => spawnSync('node', [command[0]!, '--version'])));
const node_s = best(() => timed(() => spawnSync('node', ['-e', '0'])));
report.row('whole command on 10 s of it: times real time', 10 / command_s, 1);
report.part('seconds from the shell', command_s, 2);
for (const name of ['pulse-train', 'recorded-training']) {
  const { stdout } = spawnSync('node', ['scripts/buswake.mjs', 'run', name, '--json'], {
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  const { engine } = JSON.parse(stdout) as { engine: { realtime_ratio: number } };
  report.part(`times real time that a run of ${name} prints`, engine.realtime_ratio, 1);
}
report.part('share of starting the program', start_s / command_s, 2);
report.part('starting the program over starting node', start_s / node_s, 2);
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
report.row('6 ms around the 1 ms step: general-purpose library over engine', odex_s / engine_s, 0);

// Memory that grows with time: two lengths, the difference over the difference. The recorder is full in both.
const heldAfter = (duration_s: number): number => {
  const part = { ...settled, duration_s };
  const result = simulate(assemble(part), makeDemand(part), { levels_V });
  globalThis.gc?.();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return result.counters.steps > 0 ? heapUsed + arrayBuffers : 0;
};
const [short, long] = [heldAfter(64), heldAfter(192)];
report.row('memory that grows with the run, MB per simulated hour', (((long - short) / 128) * 3600) / 1e6, 0);

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
  report.row(
    `${size} cabinets' units in one network: cost of a step over one cabinet's, per cabinet`,
    step_s / one!.step_s / size,
    2,
  );
  if (size === 64) report.part('of the same span', span_s / one!.span_s / size, 2);
}
const logs = costs.map(({ size, step_s }) => [Math.log(size), Math.log(step_s)] as const);
const mean = (k: 0 | 1): number => logs.reduce((sum, pair) => sum + pair[k], 0) / logs.length;
const slope =
  logs.reduce((sum, [x, y]) => sum + (x - mean(0)) * (y - mean(1)), 0) /
  logs.reduce((sum, [x]) => sum + (x - mean(0)) ** 2, 0);
report.part('growth exponent of a step, from 1 to 64', slope, 2);

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
report.row('an hour of recorded load, whole command: times real time', 3600 / hour_s, 0);
report.part('seconds', hour_s, 0);
report.part('most memory held, MB', most_MB, 0);
report.keep();
