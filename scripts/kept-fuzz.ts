/**
 * Mishaps to a kept run and a kept study, one at a time: bytes changed, files cut short, lines lost, files exchanged:
 *
 *   node --import tsx scripts/kept-fuzz.ts --count 2000      of each, read, count
 *     --seed 2       another series
 *
 * Ends with 1 where one is accepted that changed anything, crashes, takes over 5 s, or is refused without a place.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { keep } from './kept-fuzz/kept.ts';
import { type Ending, triedMishap } from './kept-fuzz/tried.ts';
import { watchdog } from './watchdog.ts';

const { values } = parseArgs({
  options: { count: { type: 'string', default: '2000' }, seed: { type: 'string', default: '1' } },
});
const root = mkdtempSync(join(tmpdir(), 'kept-fuzz-'));
const beat = watchdog();
let wrong = 0;
let slowest_ms = 0;
for (const kind of ['run', 'study'] as const) {
  const kept = keep(kind, root);
  const counts: Record<Ending, number> = { refused: 0, unchanged: 0, resumed: 0, wrong: 0 };
  for (let number = 0; number < Number(values.count); number++) {
    beat(number);
    const { ending, why, spent_ms } = triedMishap(kept, Number(values.seed), number);
    slowest_ms = Math.max(slowest_ms, spent_ms);
    counts[ending]++;
    if (ending === 'wrong') process.stdout.write(`${kind} ${number}: ${why}\n`);
  }
  wrong += counts.wrong;
  process.stdout.write(
    `${values.count} mishaps to a kept ${kind}, seed ${values.seed}: ${counts.refused} refused, ${counts.unchanged} that changed nothing, ${counts.resumed} of which whole trials would be gone on from, ${counts.wrong} wrong; the slowest took ${Math.round(slowest_ms)} ms\n`,
  );
}
rmSync(root, { recursive: true });
process.exitCode = wrong === 0 ? 0 : 1;
