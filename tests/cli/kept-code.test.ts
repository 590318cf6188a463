/** A command starts from code that is kept for the Node that built it: V8 takes it, and nothing else is said. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;
const folder = `${root}dist/kept-code/${process.version}-${process.arch}`;

function said(words: readonly string[], options: string): string {
  const env = { ...process.env, NODE_OPTIONS: options };
  const { stdout, stderr, status } = spawnSync(process.execPath, words, { encoding: 'utf8', cwd: root, env });
  return `${status}${stderr}${stdout.replace(/"(wall_s|realtime_ratio)": [\d.]+/g, '')}`;
}

describe('kept code', () => {
  it.each(['command', 'run-thread'])('of %s is taken by V8 under the flags of a command', (name) => {
    const text = `
      const { patiently } = require('${folder}/load.cjs');
      const { readFileSync } = require('node:fs');
      const { wrap } = require('node:module');
      patiently();
      const script = new (require('node:vm').Script)(wrap(readFileSync('${folder}/${name}.cjs', 'latin1')), {
        filename: '${folder}/${name}.cjs',
        cachedData: readFileSync('${folder}/${name}.code'),
      });
      console.log(script.cachedDataRejected);`;
    expect(said(['-e', text], '')).toBe('0false\n');
  });

  it('starts the thread of a run as well, and nothing of its making is left', () => {
    expect(existsSync(`${folder}/run-thread-start.cjs`)).toBe(true);
    expect(existsSync(`${folder}/keep.cjs`)).toBe(false);
  });

  it('is known by the file that it stands in', () => {
    const code = readFileSync(`${folder}/command.code`, 'latin1');
    expect(code).not.toContain(`${process.arch}.part`);
  });

  it('says what the modules say, under flags that it was not made for too', () => {
    const words = ['run', 'pulse-train', '--set', 'duration=0.2 s', '--json'];
    const modules = said([`${root}dist/cli/buswake.js`, ...words], '');
    expect(modules).toContain('"verdict"');
    expect(said([`${root}scripts/buswake.mjs`, ...words], '')).toBe(modules);
    expect(said([`${root}scripts/buswake.mjs`, ...words], '--max-old-space-size=3000')).toBe(modules);
  });
});
