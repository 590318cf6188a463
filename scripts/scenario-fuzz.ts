/**
 * Scenarios as they come with the project, spoilt as a hand, an editor or a disk spoils them, to try the reader and what
 * runs what it accepts:
 *
 *   node --import tsx scripts/scenario-fuzz.ts --count 20000      read, run every fourth that is accepted, count
 *     --seed 2       another series        --runs 1       run each that is accepted
 *     --only 373     print one of them, and what becomes of it
 *
 * Ends with 1 where one crashes, takes over 5 s, passes over numbers that are not finite, is refused without a place or a
 * way out, or where the memory of all goes beyond 1 GB.
 */
import { parseArgs } from 'node:util';
import { spoiltScenario } from './scenario-fuzz/spoilt.ts';
import { triedScenario } from './scenario-fuzz/tried.ts';
import { tally } from './series/tally.ts';

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    runs: { type: 'string', default: '4' },
    only: { type: 'string' },
  },
});
const seed = Number(values.seed);
const most_kB = 1e6;

if (values.only !== undefined) {
  const spoilt = spoiltScenario(seed, Number(values.only));
  const { ending, why } = triedScenario(spoilt, true);
  process.stdout.write(
    `${JSON.stringify({ ...spoilt, text: '' }, null, 2)}\n${spoilt.text}\n${ending} ${why}\n`,
  );
} else {
  const words = { read: 'read', ran: 'read and run', refused: 'refused' };
  tally(`spoilt scenarios of seed ${seed}`, Number(values.count), words, (number) =>
    triedScenario(spoiltScenario(seed, number), number % Number(values.runs) === 0),
  );
  const { maxRSS } = process.resourceUsage();
  process.stdout.write(`at most ${Math.round(maxRSS / 1000)} MB\n`);
  if (maxRSS > most_kB) process.exitCode = 1;
}
