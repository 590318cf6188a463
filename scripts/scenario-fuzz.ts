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
import { type Ending, triedScenario } from './scenario-fuzz/tried.ts';
import { watchdog } from './watchdog.ts';

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
  const counts: Record<Ending, number> = { read: 0, ran: 0, refused: 0, wrong: 0 };
  const beat = watchdog();
  let slowest_ms = 0;
  for (let number = 0; number < Number(values.count); number++) {
    beat(number);
    const { ending, why, spent_ms } = triedScenario(
      spoiltScenario(seed, number),
      number % Number(values.runs) === 0,
    );
    slowest_ms = Math.max(slowest_ms, spent_ms);
    counts[ending]++;
    if (ending === 'wrong') process.stdout.write(`${number}: ${why}\n`);
  }
  const { maxRSS } = process.resourceUsage();
  process.stdout.write(
    `${values.count} spoilt scenarios of seed ${seed}: ${counts.read} read, ${counts.ran} read and run, ${counts.refused} refused, ${counts.wrong} wrong; the slowest took ${Math.round(slowest_ms)} ms, at most ${Math.round(maxRSS / 1000)} MB\n`,
  );
  process.exitCode = counts.wrong === 0 && maxRSS < most_kB ? 0 : 1;
}
