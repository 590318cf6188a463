/**
 * Margins of the voltage loops against the modes: the gain of all shelves, and of one with the others as they are, at
 * which a mode begins to grow, found by halving over scaled K_p and K_i. Nothing of a loop gain is in that.
 *
 *   node --import tsx scripts/margins-by-modes.ts
 *   node --import tsx scripts/margins-by-modes.ts --only 3
 */
import { parseArgs } from 'node:util';
import { readTextFile } from '../src/disk/read-file.ts';
import { modesOf } from '../src/linear/modes.ts';
import { restAt } from '../src/linear/rest.ts';
import { linearise } from '../src/linear/sampled.ts';
import { readScenario } from '../src/scenario/read.ts';
import type { Change, Scenario } from '../src/scenario/scenario.ts';
import { scenarioFile } from '../src/shipped/scenario-named.ts';
import { grows } from '../src/studies/damping.ts';
import { respond } from '../src/studies/response/respond.ts';

interface Point {
  readonly words: readonly string[];
  readonly load_W: number;
}

const points: readonly Point[] = [
  { words: [], load_W: 240e3 },
  { words: ['shelves.control_delay=60 us'], load_W: 240e3 },
  { words: ['shelves.control_delay=80 us'], load_W: 240e3 },
  { words: ['shelves.output_esr=0.1 mΩ'], load_W: 240e3 },
  { words: ['shelves.proportional_gain=400 A/V'], load_W: 240e3 },
  { words: ['shelves.proportional_gain=150 A/V', 'shelves.integral_gain=1e5 A/(V s)'], load_W: 100e3 },
  { words: ['shelves.control_delay=0 us'], load_W: 200e3 },
  { words: ['shelves.control_delay=100 us'], load_W: 120e3 },
  { words: ['shelves.output_esr=0.5 mΩ'], load_W: 40e3 },
  { words: ['shelves.output_esr=1.3 mΩ', 'shelves.control_delay=45 us'], load_W: 160e3 },
  { words: ['bars.tie.closed=false'], load_W: 240e3 },
  { words: ['shelves.S3.control_delay=70 us'], load_W: 220e3 },
  { words: ['shelves.droop=1.2 mΩ', 'shelves.proportional_gain=330 A/V'], load_W: 180e3 },
  { words: ['shelves.output_capacitance=12 mF', 'shelves.control_delay=50 us'], load_W: 80e3 },
];

/** The scenario with the gains of the shelves named, or of all, times a factor. */
function scaledBy(scenario: Scenario, factor: number, shelf: string | null): Scenario {
  return {
    ...scenario,
    shelves: scenario.shelves.map((one) =>
      shelf !== null && one.id !== shelf
        ? one
        : {
            ...one,
            values: {
              ...one.values,
              proportional_gain_A_per_V: factor * one.values.proportional_gain_A_per_V,
              integral_gain_A_per_Vs: factor * one.values.integral_gain_A_per_Vs,
            },
          },
    ),
  };
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
    modesOf(linearise(restAt(scaledBy(scenario, 10 ** (dB / 20), shelf), load_W))).some(grows);
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
for (const { words, load_W } of chosen) {
  const changes: Change[] = words.map((word) => {
    const cut = word.indexOf('=');
    return { path: word.slice(0, cut), value: word.slice(cut + 1) };
  });
  const { scenario } = readScenario(scenarioFile('single-step'), { files: readTextFile, changes });
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
  process.stdout.write(`${[...words, `${load_W / 1e3} kW`].join(', ')}\n${lines.join('\n')}\n`);
}
process.stdout.write(`furthest apart: ${worst.toFixed(3)} dB\n`);
process.exitCode = worst > 0.05 ? 1 : 0;
