/**
 * How long the usual gains map takes: 24 by 24 points, share time constant against latency, on the reference
 * cabinet, two threads. Wall time depends on what else the machine does; computing time over two threads is what two
 * free cores take.
 *
 *   node --import tsx scripts/bench-map.ts [points per axis]
 */
import { loadavg } from 'node:os';
import { readTextFile } from '../src/cli/disk/files.ts';
import { readScenario } from '../src/scenario/read.ts';
import { usualAcceptance } from '../src/studies/gains/accept.ts';
import { axisOf } from '../src/studies/gains/axis.ts';
import { mapGains } from '../src/studies/gains/map.ts';

const points = Number(process.argv[2] ?? 24);
const workers = 2;
const file = 'scenarios/single-step.yaml';
const read = readScenario(file, { files: readTextFile });
const axes = [
  axisOf(`firmware.share.time_constant=20 ms to 1 s in ${points} log`, read),
  axisOf(`firmware.share.latency=2.5 ms to 60 ms in ${points}`, read),
] as const;
const start_ms = performance.now();
const before = process.cpuUsage();
const map = await mapGains({
  scenario: file,
  changes: [],
  load_W: 240e3,
  axes,
  acceptance: usualAcceptance,
  workers,
});
const { user, system } = process.cpuUsage(before);
const wall_s = (performance.now() - start_ms) / 1000;
const computed_s = (user + system) / 1e6;
console.log(
  `${map.cells.length} points: ${wall_s.toFixed(1)} s of wall time, ${computed_s.toFixed(1)} s computed, ${(computed_s / workers).toFixed(1)} s on two free cores; load ${loadavg()[0]!.toFixed(1)}`,
);
