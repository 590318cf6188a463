/**
 * Margins of the voltage loops against the modes: the gain of all shelves, and of one with the others as they are, at
 * which a mode begins to grow, found by halving over scaled K_p and K_i. Nothing of a loop gain is in that.
 *
 *   node --import tsx scripts/margins-by-modes.ts
 *   node --import tsx scripts/margins-by-modes.ts --only 3
 */
import { parseArgs } from 'node:util';
import { modesOf } from '../src/linear/modes.ts';
import { restAt } from '../src/linear/rest.ts';
import { innerTasks, linearise, type Sampled } from '../src/linear/sampled.ts';
import type { Scenario } from '../src/scenario/scenario.ts';
import { grows } from '../src/studies/damping.ts';
import { respond } from '../src/studies/response/respond.ts';
import { nameOf, points, scaledBy, scenarioAt } from './margins/points.ts';

/** Loops that are sampled are opened with the commands of all other tasks held. */
function asOpened(system: Sampled): Sampled {
  const inner = innerTasks(system);
  return inner.length === 0 ? system : { ...system, tasks: inner };
}

/** Halves the interval of gains [dB] between which a mode begins or ceases to grow. */
function edgeBetween(
  scenario: Scenario,
  load_W: number,
  shelf: string | null,
  from: number,
  to: number,
): number {
  const isUnstable = (dB: number): boolean =>
    modesOf(asOpened(linearise(restAt(scaledBy(scenario, 10 ** (dB / 20), shelf), load_W)))).some(grows);
  const first = isUnstable(from);
  let [a, b] = [from, to];
  while (Math.abs(b - a) > 0.01) {
    const middle = (a + b) / 2;
    if (isUnstable(middle) === first) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

const { values } = parseArgs({ options: { only: { type: 'string' } } });
const chosen = values.only === undefined ? points : [points[Number(values.only)]!];
let worst = 0;
for (const point of chosen) {
  const { load_W } = point;
  const scenario = scenarioAt(point);
  const { loops } = respond(scenario, { load_W });
  const lines = loops
    .filter(({ name, kind }) => name.startsWith('voltage loop') && kind !== 'one direction')
    .flatMap(({ name, kind, gain_margin_dB, gain_down_dB, stable_at_dB }) => {
      const shelf = kind === 'coupled' ? null : name.replace('voltage loop of ', '');
      const told = [gain_margin_dB, gain_down_dB, stable_at_dB].filter((dB) => dB !== null);
      return told.map((dB) => {
        const found = edgeBetween(scenario, load_W, shelf, dB - 0.1, dB + 0.1);
        worst = Math.max(worst, Math.abs(dB - found));
        return `  ${name.padEnd(20)} by the loop ${dB.toFixed(3).padStart(8)} dB, by the modes ${found.toFixed(3).padStart(8)} dB`;
      });
    });
  process.stdout.write(`${nameOf(point)}\n${lines.join('\n')}\n`);
}
process.stdout.write(`furthest apart: ${worst.toFixed(3)} dB\n`);
process.exitCode = worst > 0.05 ? 1 : 0;
