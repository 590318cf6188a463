/** The tours: every command that they show is run, in its order, and prints the lines that they show. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { missing, shownOn, tours } from '../../scripts/shown-outputs.ts';

const root = new URL('../../', import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'buswake-tour-'));

afterAll(() => rmSync(folder, { recursive: true }));

it.each(tours)('%s prints what it shows', (page) => {
  const shown = shownOn(readFileSync(page, 'utf8'));
  expect(shown.length).toBeGreaterThan(4);
  for (const { command, lines } of shown) {
    expect(command).toMatch(/^npm run -s buswake -- /);
    // What a tour keeps lies in a folder of the test's own.
    const here = command!
      .replace('npm run -s buswake --', `${process.execPath} scripts/buswake.mjs`)
      .replaceAll(' out/', ` ${folder}/`);
    const { stdout, stderr, status } = spawnSync('bash', ['-c', here], {
      cwd: root,
      encoding: 'utf8',
      env: { ...process.env, NO_COLOR: '1' },
    });
    expect([command, status]).toEqual([command, expect.toBeOneOf([0, 4, 6])]);
    const printed = `${stdout}\n${stderr}`.replaceAll(`${folder}/`, 'out/');
    expect([command, missing(lines, printed)]).toEqual([command, []]);
  }
});
