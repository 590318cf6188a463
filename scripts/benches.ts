/**
 * Synthetic benches with known start, clock, instrument and noise, placed by the tool: `--count N` right models and as
 * many wrong ones, over all stands together, seeds from `--seed` on. They are read from the run at every step by an
 * instrument of the script's own. The right model must lie inside its 95 % interval in at least 91.5 %; a wrong model must
 * never be off by more than a sample without a warning. `--late SHARE` of the run is over before a bench begins; a
 * settling curve alone may be refused then, which counts as not inside.
 *
 *   node --import tsx scripts/benches.ts --count 200
 */
import { parseArgs } from 'node:util';
import { layOver } from '../src/measured/lay-over.ts';
import type { Change } from '../src/scenario/scenario.ts';
import { readShipped } from '../tests/scenario/shipped.ts';
import { curvesOf, everyStep, type Rows } from './identification/every-step.ts';
import { type Bench, benchOf } from './placing/bench.ts';
import { type Stand, stands } from './placing/stands.ts';
import { emptyTally, enter, type Tally } from './placing/tally.ts';

const { values: asked } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    stand: { type: 'string' },
    late: { type: 'string', default: '0' },
  },
});
const count = Number(asked.count);
const first = Number(asked.seed);
const late = Number(asked.late);

function stepsOf({ name, changes, channels }: Stand, more: readonly Change[]): Rows {
  const { scenario } = readShipped(`scenarios/${name}.yaml`, [], { changes: [...changes, ...more] });
  return everyStep(scenario, channels);
}

function place(tallies: readonly Tally[], bench: Bench, model: Rows, seed: number): void {
  const { measurement } = bench;
  const placed = layOver(measurement, curvesOf(model, measurement.columns), { at_s: null });
  for (const tally of tallies) enter(tally, bench, placed, seed);
}

const [allRight, allWrong] = [emptyTally(), emptyTally()];
stands.forEach((stand, s) => {
  if (asked.stand !== undefined && asked.stand !== stand.name) return;
  const model = stepsOf(stand, []);
  const made = stand.others.map((changes) => stepsOf(stand, changes));
  const [right, wrong] = [emptyTally(), emptyTally()];
  for (let k = s; k < count; k += stands.length) {
    const seed = first + k;
    place([right, allRight], benchOf(model, stand, seed, late), model, seed);
    const other = made[Math.floor(k / stands.length) % made.length]!;
    place([wrong, allWrong], benchOf(other, stand, seed, late), model, seed);
  }
  console.log(stand.name, 'right model', JSON.stringify(right));
  console.log(stand.name, 'wrong model', JSON.stringify(wrong));
});
console.log('all, right model', JSON.stringify(allRight));
console.log('all, wrong model', JSON.stringify(allWrong));
process.exitCode = allRight.inside >= 0.915 * allRight.benches && allWrong.offWithoutWarning === 0 ? 0 : 1;
