/**
 * What judging costs in two checkouts, of the same runs, taken in turn in one process:
 *
 *   node --import tsx scripts/bench-judging.ts OTHER single-step 5 pulse-train 5
 *
 * OTHER is the folder of another checkout that has been built; behind it scenarios and the seconds that each is run for. This
 * checkout runs them and hands the results to both. Given are the best processor times of a judgement, the median of the
 * rounds' ratios of this checkout over the other, and the largest move of a number between the two reports.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import type { judge } from '../src/analysis/judge/judge.ts';
import { guardsOf } from '../src/analysis/protection/guards.ts';
import { scenarioToRun } from '../src/cli/options/scenario-to-run.ts';
import { simulate } from '../src/engine/simulate.ts';
import { levelsOf } from '../src/limits/levels.ts';
import { sustainedLengths } from '../src/limits/sustained.ts';
import { look } from '../src/linear/look.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';

const rounds = 25;
const folder = mkdtempSync(join('node_modules', 'bench-'));

async function judgeOf(root: string, name: string): Promise<typeof judge> {
  const outfile = resolve(folder, `${name}.mjs`);
  await build({
    entryPoints: [resolve(root, 'src/analysis/judge/judge.ts')],
    bundle: true,
    format: 'esm',
    platform: 'node',
    packages: 'external',
    outfile,
  });
  return ((await import(outfile)) as { judge: typeof judge }).judge;
}

const [other, ...asked] = process.argv.slice(2);
if (other === undefined || asked.length === 0)
  throw new RangeError('name the folder of the other checkout, then scenarios and how many seconds each');
const both = [await judgeOf(other, 'other'), await judgeOf('.', 'this')];
rmSync(folder, { recursive: true });

console.log('                      other   this ms');
for (let k = 0; k < asked.length; k += 2) compare(asked[k]!, asked[k + 1]!);

function compare(name: string, span_s: string): void {
  const { scenario, recorded } = scenarioToRun(name, [{ path: 'duration', value: `${span_s} s` }]);
  const demand = makeDemand(scenario, recorded ?? undefined);
  const guards = guardsOf(scenario);
  const result = simulate(assemble(scenario), demand, {
    levels_V: levelsOf(scenario.limits, scenario.nominal_V),
    sustained_s: sustainedLengths(scenario.limits),
    waveforms: guards === null ? [] : [guards.order],
  });
  const stability = look(scenario, result);
  const protection = guards?.protection() ?? null;
  const best = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const ratios: number[] = [];
  const reports: unknown[] = [];
  for (let round = 0; round <= rounds; round++) {
    const took = [0, 0];
    for (const one of round % 2 === 0 ? [0, 1] : [1, 0]) {
      const before = process.cpuUsage();
      reports[one] = both[one]!(scenario, demand, result, recorded, stability, protection);
      const { user, system } = process.cpuUsage(before);
      took[one] = (user + system) / 1e3;
      // The first round warms up.
      if (round > 0) best[one] = Math.min(best[one]!, took[one]!);
    }
    if (round > 0) ratios.push(took[1]! / took[0]!);
  }
  ratios.sort((a, b) => a - b);
  const median = ratios[Math.floor(ratios.length / 2)]!;
  const times = best.map((ms) => ms.toFixed(1).padStart(6)).join(' ');
  console.log(
    `${name.padEnd(20)} ${times}  median ratio ${median.toFixed(3)}, moved by ${farthest(reports[0], reports[1]).toExponential(0)}`,
  );
}

/** The largest difference of two numbers at the same place, over the larger; infinite where anything else differs. */
function farthest(a: unknown, b: unknown): number {
  if (Object.is(a, b)) return 0;
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b));
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null)
    return Number.POSITIVE_INFINITY;
  const names = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  const at = (of: object, name: string): unknown => (of as Record<string, unknown>)[name];
  return names.reduce((most, name) => Math.max(most, farthest(at(a, name), at(b, name))), 0);
}
