/** How the command line starts: the commands it names are those it has, and it starts from what was built. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { builtFrom, sumOfSource } from '../../src/bundle/build.ts';
import type { Build } from '../../src/bundle/format.ts';
import { built } from '../../src/home.ts';
import { toolVersion } from '../../src/version.ts';

const root = new URL('../../', import.meta.url).pathname;

function buswake(...words: string[]): string {
  const { stdout, stderr, status } = spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, ...words], {
    encoding: 'utf8',
    cwd: root,
  });
  expect(`${stderr}${status}`).toBe('0');
  return stdout;
}

describe('the command line', () => {
  const help = buswake('--help');
  const commands = [...help.slice(help.indexOf('Commands:')).matchAll(/^ {2}([a-z]+)/gm)].map(
    ([, name]) => name!,
  );

  it('lists every command in its help', () => {
    expect(commands.filter((name) => name !== 'help')).toEqual([
      'run',
      'check',
      'trace',
      'view',
      'verify',
      'export',
      'size',
      'rating',
      'matrix',
      'spread',
      'compare',
      'gains',
      'response',
      'fit',
    ]);
  });

  it.each(commands.filter((name) => name !== 'help'))('loads %s alone when it is asked for', (name) => {
    expect(buswake(name, '--help')).toMatch(new RegExp(`Usage: .* ${name} `));
    expect(buswake('--debug', name, '--help')).toMatch(new RegExp(`Usage: .* ${name} `));
  });

  it('names a command it does not know, and the nearest', () => {
    const { stderr, status } = spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, 'rnu'], {
      encoding: 'utf8',
    });
    expect(status).toBe(2);
    expect(stderr).toContain('run');
  });

  it('runs what was built from the sources as they are, without a loader', () => {
    const kept = JSON.parse(readFileSync(`${root}dist/${builtFrom}`, 'utf8')) as Build;
    expect(kept.source_sha256).toBe(sumOfSource(root));
    expect(existsSync(fileURLToPath(built('cli/apart/run-thread.ts')))).toBe(true);
    const plain = spawnSync(process.execPath, [`${root}dist/cli/buswake.js`, '--version'], {
      encoding: 'utf8',
      env: {},
    });
    expect(plain.stdout.trim()).toBe(toolVersion);
  });
});
