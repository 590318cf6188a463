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
      'new',
      'run',
      'check',
      'explain',
      'trace',
      'review',
      'view',
      'verify',
      'export',
      'size',
      'designs',
      'rating',
      'matrix',
      'spread',
      'duty',
      'compare',
      'gains',
      'response',
      'embed',
      'fit',
    ]);
  });

  it.each(commands.filter((name) => name !== 'help'))('loads %s alone when it is asked for', (name) => {
    const own = buswake('--debug', name, '--help');
    // The first words are an example that runs this command, and what it does is said as in the list of all.
    expect(own).toMatch(
      new RegExp(
        `^Examples?:\\s+node scripts/buswake\\.mjs (${name}|run pulse-train (?:--limits \\S+ )?--out) .*\n`,
      ),
    );
    expect(own).toContain(`\nUsage: node scripts/buswake.mjs ${name} [options] <`);
    const said = (text: string, from: RegExp): string =>
      from.exec(text.replaceAll(/\s+/g, ' '))?.[1] ?? `nothing after ${from}`;
    const listed = said(help, new RegExp(` ${name} \\[options\\] (.*?) (?:[a-z]+ \\[|Exit codes)`));
    expect(said(own, /Usage: .*? \[options\](?: <[a-z.]+>)+ (.*?) Arguments:/)).toBe(listed);
    expect(own).toMatch(/\n {2}-h, --help +display help for command\n$/);
    expect(own).not.toContain('default: []');
  });

  it('names a command it does not know, and the nearest', () => {
    const { stderr, status } = spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, 'rnu'], {
      encoding: 'utf8',
    });
    expect([status, stderr]).toEqual([2, "error: unknown command 'rnu'\n(Did you mean run?)\n"]);
  });

  it('runs what was built from the sources as they are, without a loader', () => {
    const kept = JSON.parse(readFileSync(`${root}dist/${builtFrom}`, 'utf8')) as Build;
    expect(kept.source_sha256).toBe(sumOfSource(root));
    expect(existsSync(fileURLToPath(built('cli/apart/run-thread.ts')))).toBe(true);
    const plain = spawnSync(process.execPath, [`${root}dist/cli/buswake.js`, '--version'], {
      encoding: 'utf8',
      env: {},
    });
    expect(plain.stdout).toBe(`${toolVersion} (build ${kept.source_sha256.slice(0, 12)})\n`);
  });
});
