/**
 * The box of a kept gains map against points that the map does not have: drawn at random inside it, none may be
 * unacceptable; and just outside each face that is no end of the map, along the whole face, where one should be. The first of
 * them also as runs in time, with limits, quantum and dead band on: none may fail.
 *
 *   node --import tsx scripts/box-check.ts out/map --count 200 --in-time 20
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { formatQuantity } from '../src/base/quantity.ts';
import { readTextFile } from '../src/disk/read-file.ts';
import { run } from '../src/run.ts';
import { readScenario } from '../src/scenario/read.ts';
import type { Scenario } from '../src/scenario/scenario.ts';
import { scenarioFile } from '../src/shipped/scenario-named.ts';
import { lacks } from '../src/studies/gains/accept.ts';
import { CellWorkshop } from '../src/studies/gains/cell.ts';
import type { GainsReport } from '../src/studies/gains/report.ts';

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: {
    count: { type: 'string', default: '200' },
    'in-time': { type: 'string', default: '0' },
    seed: { type: 'string', default: '1' },
  },
});
const report: GainsReport = JSON.parse(readFileSync(join(positionals[0]!, 'study.json'), 'utf8'));
const { recommended, axes, base, load_W, acceptance } = report;
if (recommended === null) throw new RangeError('a map that recommends nothing has no box');
const { sides } = recommended.box;
const workshop = new CellWorkshop();

function scenarioAt(point: readonly number[]): Scenario {
  const changes = [
    ...base.changes,
    ...point.map((value, k) => ({ path: axes[k]!.path, value: formatQuantity(value, axes[k]!.unit, 4) })),
  ];
  return readScenario(scenarioFile(base.scenario), { files: readTextFile, changes }).scenario;
}

const lackAt = (point: readonly number[]): string | null =>
  lacks(workshop.cell(scenarioAt(point), load_W), acceptance);

/** A multiplicative sequence, 48271 modulo 2³¹ − 1. */
let state = Number(values.seed);
function next(): number {
  state = (48271 * state) % 2147483647;
  return state / 2147483647;
}

const within = ({ low, high }: (typeof sides)[number], share: number): number =>
  low.value + share * (high.value - low.value);
let wrong = 0;
let failed = 0;
for (let n = 0; n < Number(values.count); n++) {
  const point = sides.map((side) => within(side, next()));
  if (n < Number(values['in-time'])) {
    const { summary, verdict } = run(scenarioAt(point), null).report;
    if (verdict === 'fail') failed++;
    if (verdict === 'fail') process.stdout.write(`in time, ${point.join(', ')}: ${summary}\n`);
  }
  const lack = lackAt(point);
  if (lack === null) continue;
  wrong++;
  process.stdout.write(`inside, ${point.join(', ')}: ${lack}\n`);
}
process.stdout.write(`${wrong} of ${values.count} points inside are not acceptable\n`);
process.stdout.write(`${failed} of ${values['in-time']} of them, run in time, fail\n`);
for (const [k, side] of sides.entries()) {
  for (const [face, out] of [
    [side.low, 0.95],
    [side.high, 1.05],
  ] as const) {
    if (face.fails === null) continue;
    const along = Array.from({ length: 5 }, (_, n) => within(sides[1 - k]!, n / 4));
    const failing = along.filter(
      (other) => lackAt(k === 0 ? [out * face.value, other] : [other, out * face.value]) !== null,
    );
    process.stdout.write(
      `5 % outside ${side.path} ${face.text}: ${failing.length} of ${along.length} points fail\n`,
    );
  }
}
process.exitCode = wrong + failed === 0 ? 0 : 1;
