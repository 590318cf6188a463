/** The command runs, controllers of the user's own included, where its folder has a blank and letters beyond ASCII in its name. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url).pathname;
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'a folder µ '));
  for (const part of ['dist', 'models', 'scenarios', 'package.json', 'scripts/buswake.mjs'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
});

afterAll(() => rmSync(folder, { recursive: true }));

it('runs a law in a module of the user', () => {
  const words = [join(folder, 'scripts/buswake.mjs'), 'run', 'own-share', '--set', 'duration=50 ms', '-q'];
  const { status, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8', cwd: folder });
  expect(stderr).toBe('');
  // So short a run is inconclusive; a module that is not found would be bad input.
  expect(status).toBe(6);
});
