/**
 * What a command spends its processor time on, stage by stage: 10 s of `pulse-train`, each stage as a process meets it, for
 * the first time and not yet compiled. As shares of all stages: a loaded machine gives other times.
 *
 *   node --import tsx scripts/bench-command.ts
 */
import { judge } from '../src/analysis/judge/judge.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { ready } from '../src/engine/cabinet.ts';
import { converge, type Way } from '../src/engine/cycle/converge.ts';
import { simulate } from '../src/engine/simulate.ts';
import { levelsOf } from '../src/limits/levels.ts';
import { sustainedLengths } from '../src/limits/sustained.ts';
import { look } from '../src/linear/look.ts';
import { makeDemand } from '../src/loads/make-demand.ts';
import { assemble } from '../src/network/network.ts';
import { readScenario } from '../src/scenario/read.ts';

/** Processor time of every stage [s], in the order of a run. */
const spent_s = new Map<string, number>();

function spend<T>(stage: string, work: () => T): T {
  const before = process.cpuUsage();
  const made = work();
  const { user, system } = process.cpuUsage(before);
  spent_s.set(stage, (user + system) / 1e6);
  return made;
}

const { scenario } = spend('scenario read and checked', () =>
  readScenario('scenarios/pulse-train.yaml', {
    files: readTextFile,
    changes: [{ path: 'duration', value: '10 s' }],
  }),
);
const demand = makeDemand(scenario);
const period = demand.period_ticks!;
const cabinet = spend('cabinet built and settled', () => ready(assemble(scenario), demand, 1));
const found = spend('cycle converged', () => converge(cabinet, period));
const { steps } = cabinet;
const settled = { ...scenario, start: 'settled' as const };
const result = spend('run, settled start and what it records included', () =>
  simulate(assemble(settled), demand, {
    levels_V: levelsOf(scenario.limits, scenario.nominal_V),
    sustained_s: sustainedLengths(scenario.limits),
  }),
);
const stability = spend('look at the linear model', () => look(scenario, result));
spend('judged', () => judge(scenario, demand, result, null, stability));

const all_s = [...spent_s.values()].reduce((sum, s) => sum + s, 0);
for (const [stage, s] of spent_s) console.log(`${stage.padEnd(52)} ${((100 * s) / all_s).toFixed(0)} %`);

/** Steps of the search for a cycle, its start and what it found. */
function stepsOf(way: Way): { readonly steps: number; readonly cycles: number } {
  const fresh = ready(assemble(scenario), demand, 1);
  const { cycles } = converge(fresh, period, way);
  return { steps: fresh.steps, cycles };
}
const mixed = stepsOf('mixing');
console.log(
  `${'periods and steps to the cycle, by mixing alone'.padEnd(52)} ${found.cycles} and ${steps}, ${mixed.cycles} and ${mixed.steps}`,
);
