/**
 * How long the command takes to start, and what a user gets: each command's best time of several, over that of a Node that
 * does nothing, taken in turn; then the packed size, files and run-time packages.
 *
 *   node --import tsx scripts/start-up.ts [CHECKOUT]
 *
 * CHECKOUT is the folder of another checkout that has been built; without it this one.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { installedWith } from './licences.ts';

const root = resolve(process.argv[2] ?? '.');
const command = join(root, 'scripts/buswake.mjs');
const rounds = 9;

const cases: readonly (readonly [string, readonly string[]])[] = [
  ['node -e 0', ['-e', '0']],
  ...['--version', '--help', 'run --help', 'size --help', 'check pulse-train', 'view --help'].map(
    (words) => [`buswake ${words}`, [command, ...words.split(' ')]] as const,
  ),
];

const best_ms = cases.map(() => Number.POSITIVE_INFINITY);
for (let round = 0; round < rounds; round += 1) {
  cases.forEach(([, words], k) => {
    const from = performance.now();
    spawnSync(process.execPath, words, { cwd: root });
    best_ms[k] = Math.min(best_ms[k]!, performance.now() - from);
  });
}
cases.forEach(([name], k) => {
  const ms = best_ms[k]!;
  console.log(`${name.padEnd(26)} ${ms.toFixed(0).padStart(4)} ms  ${(ms / best_ms[0]!).toFixed(1)}`);
});

const pack = spawnSync('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], {
  cwd: root,
  encoding: 'utf8',
  maxBuffer: 1 << 28,
});
const { size, unpackedSize, entryCount } = packed(pack.stdout);
console.log(
  `package  ${(size / 1e6).toFixed(2)} MB packed, ${(unpackedSize / 1e6).toFixed(1)} MB in ${entryCount} files`,
);
const { dependencies } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  readonly dependencies: Readonly<Record<string, string>>;
};
const names = Object.keys(dependencies);
const along = installedWith(names, join(root, 'node_modules')).length;
console.log(`run-time packages  ${names.length}, ${along} with what they need`);

interface Packed {
  readonly size: number;
  readonly unpackedSize: number;
  readonly entryCount: number;
}

/** Some versions of npm give a list, some an object by name. */
function packed(text: string): Packed {
  const [one] = Object.values(JSON.parse(text) as Readonly<Record<string, Packed>>);
  return one!;
}
