/**
 * What a study compiles again and again. V8 keeps a function's machine code no longer than the function itself: a callback that
 * is hot and made anew in every trial is compiled anew after every collection of garbage. What has a name of its own, a
 * module's function or a class's method, stays.
 *
 *   node --import tsx scripts/compiled-again.ts [CHECKOUT] [SAMPLES] [LEAST]
 *
 * Runs `spread tolerances` of a checkout that has been built (this one; 80 samples) and lists what was compiled at least so often
 * (8 times; two workers have compiled each once): bytes of code, how often, name and line. The last line is the sum.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { SourceMap } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = resolve(process.argv[2] ?? '.');
const samples = process.argv[3] ?? '80';
const least = Number(process.argv[4] ?? 8);
const shown = 40;

/** Address and size of each piece of machine code, in hexadecimal, and the function it is of: `perf`'s own form. */
const line = /^[0-9a-f]+ ([0-9a-f]+) JS:\*(\S*) (file:\S+):(\d+):(\d+)$/;

const folder = mkdtempSync(join(tmpdir(), 'compiled-'));
const words = ['spread', 'tolerances', '--samples', samples, '--out', join(folder, 'study'), '-q'];
const study = spawn(process.execPath, ['--perf-basic-prof', join(root, 'scripts/buswake.mjs'), ...words], {
  cwd: folder,
  stdio: ['ignore', 'ignore', 'inherit'],
});
await once(study, 'exit');
const list = `/tmp/perf-${study.pid}.map`;

interface Compiled {
  bytes: number;
  times: number;
}

const found = new Map<string, Compiled>();
for (const text of readFileSync(list, 'utf8').split('\n')) {
  const match = line.exec(text);
  if (match === null) continue;
  const [, size = '', name = '', file = '', row = '', column = ''] = match;
  const key = [file, row, column, name].join('\n');
  const one = found.get(key) ?? { bytes: 0, times: 0 };
  one.bytes += Number.parseInt(size, 16);
  one.times += 1;
  found.set(key, one);
}
rmSync(list);
rmSync(folder, { recursive: true });

const maps = new Map<string, SourceMap | null>();
function placeOf(key: string): string {
  const [file = '', row = '', column = '', name = ''] = key.split('\n');
  if (!maps.has(file)) {
    const map = `${fileURLToPath(file)}.map`;
    maps.set(file, existsSync(map) ? new SourceMap(JSON.parse(readFileSync(map, 'utf8'))) : null);
  }
  const entry = maps.get(file)?.findEntry(Number(row) - 1, Number(column) - 1);
  const source = entry !== undefined && 'originalSource' in entry ? entry : null;
  const place =
    source === null
      ? `${file}:${row}`
      : `${source.originalSource.replace(/^.*\/src\//, 'src/')}:${source.originalLine + 1}`;
  return `${name === '' ? 'a callback' : name}, ${place}`;
}

const often = [...found].filter(([, { times }]) => times >= least).sort((a, b) => b[1].bytes - a[1].bytes);
for (const [key, { bytes, times }] of often.slice(0, shown))
  console.log(
    `${(bytes / 1e3).toFixed(0).padStart(6)} kB ${String(times).padStart(4)} times  ${placeOf(key)}`,
  );
const sum = (all: Iterable<Compiled>): number => [...all].reduce((total, { bytes }) => total + bytes, 0);
const again_kB = sum(often.map(([, one]) => one)) / 1e3;
console.log(
  `${again_kB.toFixed(0)} kB of ${(sum(found.values()) / 1e3).toFixed(0)} kB by ${often.length} functions`,
);
