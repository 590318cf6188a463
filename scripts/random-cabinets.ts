/**
 * Random cabinets with random faults, to try the engine on what nobody would build:
 *
 *   node --import tsx scripts/random-cabinets.ts --count 1000          run, count, name what is not clean
 *     --seed 2        another series           --part 2/4    the second quarter of it, for several machines
 *     --shorts        the first fault of each is a short
 *     --refine        with steps of a half and a quarter too: do the figures converge?
 *     --only 373 --out out/random              the files of one cabinet, to be run by hand
 *
 * Ends with 1 where more than five in a thousand audits are open, anything else is wrong, or a figure does not converge.
 */
import { cpSync, mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { outcomeOf } from './random-cabinets/outcome.ts';
import { bound, refined } from './random-cabinets/refinement.ts';
import { randomScenario } from './random-cabinets/scenario.ts';
import { faultWords, outcomeWords, runSeries } from './random-cabinets/series.ts';

/** Share of the runs whose audit may be open, so long as their status says it. */
const mostOpen_ratio = 5e-3;

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '1000' },
    seed: { type: 'string', default: '1' },
    part: { type: 'string', default: '1/1' },
    shorts: { type: 'boolean', default: false },
    refine: { type: 'boolean', default: false },
    only: { type: 'string' },
    out: { type: 'string', default: 'out/random' },
  },
});

const wholeNumber = (text: string, what: string): number => {
  const value = Number(text);
  if (text === '' || !Number.isSafeInteger(value) || value < 0)
    throw new RangeError(`${what}: ${text} is no whole number`);
  return value;
};

const seed = wholeNumber(values.seed, '--seed');
const count = wholeNumber(values.count, '--count');
const [part = 1, parts = 1] = values.part.split('/').map((text) => wholeNumber(text, '--part'));
const from = Math.floor(((part - 1) * count) / parts);
const to = Math.floor((part * count) / parts);
const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

if (values.only !== undefined) keep(wholeNumber(values.only, '--only'));
else if (values.refine) refineAll();
else runAll();

/** Writes cabinet, scenario and the models they name to a folder, and says what comes of them. */
function keep(number: number): void {
  const drawn = randomScenario(seed, number, values.shorts);
  const folder = values.out;
  mkdirSync(`${folder}/scenarios`, { recursive: true });
  cpSync('models', `${folder}/models`, { recursive: true });
  for (const [path, text] of Object.entries(drawn.files)) writeFileSync(`${folder}/${path}`, text);
  say(`${number} of seed ${seed}: ${outcomeWords(outcomeOf(drawn.read.scenario))}; ${faultWords(drawn)}`);
  say(`run it: npm run -s buswake -- run ${folder}/scenarios/random.yaml`);
}

function runAll(): void {
  const tally = runSeries({ seed, from, to, shorted: values.shorts }, (done) => {
    if (process.stderr.isTTY) process.stderr.write(`\r${done} of ${to - from}`);
  });
  const { counts, runs, closed, worst_ratio, worstNumber, unclean } = tally;
  for (const line of unclean) say(line);
  const ended = Object.entries(counts).map(([ending, n]) => `${n} ${ending}`);
  say(`${runs} random cabinets of seed ${seed}: ${ended.join(', ')}`);
  say(
    `audit closed in ${closed}; worst: open by ${worst_ratio.toExponential(1)} of throughput, in ${worstNumber}`,
  );
  const sound = unclean.length === counts.audit_open && counts.audit_open <= mostOpen_ratio * runs;
  process.exitCode = sound ? 0 : 1;
}

function refineAll(): void {
  let converged = 0;
  let worst_ratio = 0;
  for (let number = from; number < to; number++) {
    const one = refined(seed, number);
    worst_ratio = Math.max(worst_ratio, one.worst_ratio);
    if (one.converges) converged++;
    else say(`${number}: ${one.outcomes.map(outcomeWords).join(' | ')}; ${one.faults}`);
  }
  say(`${converged} of ${to - from} cabinets with shorts converge at steps of a half and a quarter`);
  say(
    `largest difference between both: ${worst_ratio.toExponential(1)} of its scale (bound ${bound} where differences do not shrink)`,
  );
  process.exitCode = converged === to - from ? 0 : 1;
}
