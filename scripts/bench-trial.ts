/**
 * What a trial of a study costs beside its steps, part by part, in two checkouts taken in turn in one process:
 *
 *   node --import tsx scripts/bench-trial.ts OTHER [scenario] [rounds]
 *
 * OTHER is the folder of another checkout that has been built. Given are the lower quartiles of the processor times in both,
 * and their ratio. `read`: a scenario under a change that no trial before had; `settled` and `linear`: one point of the look.
 */
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const [other, name = 'single-step', rounds = '25'] = process.argv.slice(2);
if (other === undefined) throw new Error('name another checkout');

type Part = 'read' | 'settled' | 'linear' | 'look';

const calls: Readonly<Record<Part, number>> = { read: 8, settled: 8, linear: 8, look: 3 };

async function partsOf(root: string): Promise<Readonly<Record<Part, () => unknown>>> {
  const from = (file: string) => import(pathToFileURL(join(root, 'src', file)).href);
  const { DiskSource } = await from('bundle/disk-source.ts');
  const { Shelf } = await from('studies/bench/shelf.ts');
  const { run } = await from('run.ts');
  const { look } = await from('linear/look.ts');
  const { restAt } = await from('linear/rest.ts');
  const { linearise } = await from('linear/sampled.ts');
  const shelf = new Shelf(new DiskSource());
  let trial = 0;
  const read = () =>
    shelf.read({
      scenario: join(root, 'scenarios', `${name}.yaml`),
      changes: [
        { path: 'duration', value: '5 s' },
        { path: 'trays.capacitance', value: `${130 + 0.01 * trial++} F` },
      ],
    });
  const { scenario } = read();
  const { result } = run(scenario, null);
  const settled = () => restAt(scenario, 0.8 * scenario.rated_W);
  const cabinet = settled();
  return { read, settled, linear: () => linearise(cabinet), look: () => look(scenario, result) };
}

const both = [await partsOf(resolve(other)), await partsOf(resolve('.'))] as const;

/** Processor time of one call [ms]. */
function cost_ms(work: () => unknown, count: number): number {
  const before = process.cpuUsage();
  for (let k = 0; k < count; k++) work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e3 / count;
}

const quartile = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 2]!;

for (const part of Object.keys(calls) as Part[]) {
  const times: [number[], number[]] = [[], []];
  for (const parts of both) cost_ms(parts[part], 5 * calls[part]);
  for (let round = 0; round < Number(rounds); round++)
    for (const k of round % 2 === 0 ? ([0, 1] as const) : ([1, 0] as const))
      times[k].push(cost_ms(both[k][part], calls[part]));
  const [there, here] = [quartile(times[0]), quartile(times[1])];
  console.log(
    `${name} ${part.padEnd(8)} ${there.toFixed(2)} ms there, ${here.toFixed(2)} ms here: ${(here / there).toFixed(3)}`,
  );
}
