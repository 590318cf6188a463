/**
 * Commands that keep something, killed at random moments: what lies there afterwards is whole, or not there, and the same
 * command, said again, ends as if nothing had been:
 *
 *   node --import tsx scripts/kills.ts --count 200
 *     --seed 2       other moments
 *
 * Ends with 1 where something half is found, a study cannot be gone on with, or a leftover stays. Count and endings are printed.
 */
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { commands } from './kills/commands.ts';
import { killed } from './kills/killed.ts';
import { Draw } from './random-cabinets/draw.ts';

const { values } = parseArgs({
  options: { count: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } },
});
const root = mkdtempSync(join(tmpdir(), 'kills-'));
const counts = new Map<string, number>();
let wrong = 0;
for (const command of commands) command.prepare(root);
for (let number = 0; number < Number(values.count); number++) {
  const command = commands[number % commands.length]!;
  const { ending, why } = await killed(command, root, new Draw(Number(values.seed), number));
  const key = `${command.called}: ${ending}`;
  counts.set(key, (counts.get(key) ?? 0) + 1);
  if (why === null) continue;
  wrong++;
  process.stdout.write(`${number}, ${command.called}: ${why}\n`);
}
const left = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) =>
  /\.buswake-(part|old)$|\.in-use/.test(name),
);
for (const name of left) process.stdout.write(`left behind: ${name}\n`);
rmSync(root, { recursive: true });
const tally = [...counts].sort().map(([key, count]) => `${key} ${count}`);
process.stdout.write(
  `${values.count} kills of seed ${values.seed}: ${tally.join(', ')}; ${wrong} wrong, ${left.length} left behind\n`,
);
process.exitCode = wrong + left.length === 0 ? 0 : 1;
