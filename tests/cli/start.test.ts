/** How the command line starts: the commands it names are those it has, and it starts from its own bundle. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
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

  it('starts from a bundle of the sources as they are', async () => {
    const { bundled } = (await import(pathToFileURL(`${root}src/compiled.mjs`).href)) as {
      bundled: () => Promise<string>;
    };
    const folder = await bundled();
    expect(existsSync(join(folder, 'cli/buswake.js'))).toBe(true);
    expect(existsSync(join(folder, 'cli/run-thread.js'))).toBe(true);
    expect(await bundled()).toBe(folder);
    // Plain JavaScript: no loader takes part.
    const plain = spawnSync(process.execPath, [join(folder, 'cli/buswake.js'), '--version'], {
      encoding: 'utf8',
    });
    expect(plain.stdout.trim()).toBe(toolVersion);
  });
});
