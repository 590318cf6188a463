/**
 * What sampled voltage loops cost, and where shipped scenarios end with them: each run with the loops of the stages and with
 * sampled ones; verdict, outcome, bus, highest shelf current, and the ratio of processor time, the linear model at the points of
 * rest included. The engine's own ratio is that of two runs without it. The first scenario runs once before, to warm up.
 *
 *   node --import tsx scripts/sampled-loops.ts shelf-trip modules-out
 *   node --import tsx scripts/sampled-loops.ts --period "20 us" --latency "10 us" single-step
 */
import { parseArgs } from 'node:util';
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { simulate } from '../src/engine/simulate.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { run } from '../src/run.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    period: { type: 'string', default: '50 us' },
    latency: { type: 'string', default: '25 us' },
  },
});
if (positionals.length === 0) throw new RangeError('name the scenarios');

const sampled = [
  { path: 'shelves.loop_period', value: values.period },
  { path: 'shelves.loop_latency', value: values.latency },
];

function timed<T>(work: () => T): { readonly out: T; readonly cpu_s: number } {
  const before = process.cpuUsage();
  const out = work();
  const { user, system } = process.cpuUsage(before);
  return { out, cpu_s: (user + system) / 1e6 };
}

function taken(name: string, changes: Parameters<typeof scenarioToRun>[1]) {
  const { scenario, recorded } = scenarioToRun(name, changes);
  const engine = timed(() =>
    simulate(assemble(scenario), makeDemand(scenario, recorded ?? undefined), {
      levels_V: new Float64Array(0),
    }),
  );
  const whole = timed(() => run(scenario, recorded).report);
  return { engine_s: engine.cpu_s, whole_s: whole.cpu_s, report: whole.out };
}

const row = (cells: readonly string[]): void => {
  process.stdout.write(`| ${cells.join(' | ')} |\n`);
};
row(['scenario', 'verdict', 'outcome', 'bus [V]', 'shelf [A]', 'time, engine', 'time, all']);
row(Array.from({ length: 7 }, () => '---'));
taken(positionals[0]!, []);
for (const name of positionals) {
  const own = taken(name, []);
  const other = taken(name, sampled);
  const both = (of: (report: typeof own.report) => string): string => {
    const [a, b] = [of(own.report), of(other.report)];
    return a === b ? a : `${a} → ${b}`;
  };
  const volt = (v: number | null): string => (v === null ? '–' : v.toFixed(2));
  row([
    name,
    both(({ verdict }) => verdict.replaceAll('_', ' ')),
    both(({ outcome }) => outcome.kind),
    both(({ metrics }) => `${volt(metrics.bus_min_V)} to ${volt(metrics.bus_max_V)}`),
    both(({ metrics }) => metrics.shelf_current_max_A?.toFixed(0) ?? '–'),
    `× ${(other.engine_s / own.engine_s).toFixed(1)}`,
    `× ${(other.whole_s / own.whole_s).toFixed(1)}`,
  ]);
}
