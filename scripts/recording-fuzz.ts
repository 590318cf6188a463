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
import { tried } from './recording-fuzz/tried.ts';
import { tally } from './series/tally.ts';

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '20000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
  },
});
const seed = Number(values.seed);

if (values.only !== undefined) process.stdout.write(mutatedRecording(seed, Number(values.only)));
else
  tally(
    `mutated recordings of seed ${seed}`,
    Number(values.count),
    { read: 'read', refused: 'refused' },
    (number) => tried(mutatedRecording(seed, number), number),
  );
