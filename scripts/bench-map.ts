/**
 * How long the usual gains map takes, on one worker and on two: 24 by 24 points, share time constant against latency,
 * on the reference cabinet. Wall time depends on what else the machine does; computing time over two threads is what
 * two free cores take.
 *
 * With samples: what asking every acceptable point with as many samples of the models' tolerances computes more, over the
 * map alone; damping of 0.1 is acceptable then, or on this cabinet no point is left after the first sample.
 *
 *   node --import tsx scripts/bench-map.ts [points per axis] [samples] [most workers]
 */
import { loadavg } from 'node:os';
import { DiskSource } from '../src/bundle/disk-source.ts';
import { Bench } from '../src/studies/bench/bench.ts';
import { Shelf } from '../src/studies/bench/shelf.ts';
import { AskedPoints } from '../src/studies/gains/asked-points.ts';
import { inCircumstances } from '../src/studies/gains/in-circumstances.ts';
import { mapOf } from '../src/studies/gains/map.ts';
import { planGains } from '../src/studies/gains/plan.ts';

const points = Number(process.argv[2] ?? 24);
const samples = Number(process.argv[3] ?? 0);
const most = Number(process.argv[4] ?? 2);
const shelf = new Shelf(new DiskSource());
const plan = planGains(
  {
    scenario: 'scenarios/single-step.yaml',
    changes: [],
    x: `firmware.share.time_constant=20 ms to 1 s in ${points} log`,
    y: `firmware.share.latency=2.5 ms to 60 ms in ${points}`,
    load_W: 240e3,
    accept: samples > 0 ? ['damping=0.1'] : [],
    samples,
    seed: 1,
    over: null,
    confirm: false,
  },
  (of) => shelf.read(of),
);
for (const workers of [1, 2].filter((some) => some <= most)) {
  const start_ms = performance.now();
  const before = process.cpuUsage();
  const bench = new Bench({ workers });
  const map = mapOf(plan, await bench.run(plan.cells));
  const { cells } = map;
  const { user, system } = process.cpuUsage(before);
  const wall_s = (performance.now() - start_ms) / 1000;
  const computed_s = (user + system) / 1e6;
  console.log(
    `${cells.length} points, ${workers === 1 ? 'one worker' : 'two workers'}: ${wall_s.toFixed(1)} s of wall time, ${computed_s.toFixed(1)} s computed, ${(computed_s / workers).toFixed(1)} s on as many free cores; load ${loadavg()[0]!.toFixed(1)}`,
  );
  if (samples > 0) {
    const asked = await inCircumstances(plan, map, new AskedPoints(plan, (trials) => bench.run(trials)));
    const all = process.cpuUsage(before);
    const kept = asked.cells.filter(({ lacks }) => lacks === null).length;
    const nominal = cells.filter(({ lacks }) => lacks === null).length;
    console.log(
      `  with ${samples} samples: ${((all.user + all.system) / (user + system)).toFixed(1)} times as much computed; ${nominal} points acceptable as they are, ${kept} with all samples`,
    );
  }
  await bench.close();
}
