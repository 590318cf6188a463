/**
 * Mutated recordings, to try the reader on what nobody would record:
 *
 *   node --import tsx scripts/recording-fuzz.ts --count 20000      read, count, name what is wrong
 *     --seed 2       another series        --only 373              print one of them
 *
 * Ends with 1 where one crashes, takes over 5 s, gives a number that is not finite, or is refused without a way out.
 */
import { parseArgs } from 'node:util';
import { mutatedRecording } from './recording-fuzz/mutated.ts';
import { type Ending, tried } from './recording-fuzz/tried.ts';
import { watchdog } from './watchdog.ts';

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
  },
});
const seed = Number(values.seed);
const counts: Record<Ending, number> = { read: 0, refused: 0, wrong: 0 };

if (values.only !== undefined) process.stdout.write(mutatedRecording(seed, Number(values.only)));
else {
  const beat = watchdog();
  let slowest_ms = 0;
  for (let number = 0; number < Number(values.count); number++) {
    beat(number);
    const { ending, why, spent_ms } = tried(mutatedRecording(seed, number), number);
    slowest_ms = Math.max(slowest_ms, spent_ms);
    counts[ending]++;
    if (ending === 'wrong') process.stdout.write(`${number}: ${why}\n`);
  }
  process.stdout.write(
    `${values.count} mutated recordings of seed ${seed}: ${counts.read} read, ${counts.refused} refused, ${counts.wrong} wrong; the slowest took ${Math.round(slowest_ms)} ms\n`,
  );
  process.exitCode = counts.wrong === 0 ? 0 : 1;
}
