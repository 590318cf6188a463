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
import { triedMishap } from './kept-fuzz/tried.ts';
import { tally } from './series/tally.ts';

const { values } = parseArgs({
  options: { count: { type: 'string', default: '2000' }, seed: { type: 'string', default: '1' } },
});
const root = mkdtempSync(join(tmpdir(), 'kept-fuzz-'));
const words = {
  refused: 'refused',
  unchanged: 'that changed nothing',
  resumed: 'of which whole trials would be gone on from',
};
for (const kind of ['run', 'study'] as const) {
  const kept = keep(kind, root);
  const of = `mishaps to a kept ${kind}, seed ${values.seed}`;
  tally(of, Number(values.count), words, (number) => triedMishap(kept, Number(values.seed), number));
}
rmSync(root, { recursive: true });
