import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { EmbedDocument } from '../../../src/cli/commands/embed.ts';

const buswake = fileURLToPath(new URL('../../../scripts/buswake.mjs', import.meta.url));
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'embed-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const embed = (...words: readonly string[]) =>
  spawnSync(process.execPath, [buswake, 'embed', 'bench-step', ...words], { cwd: folder, encoding: 'utf8' });

it('writes a folder that compiles as it says, and names its files', () => {
  const { stdout, stderr, status } = embed('--set', 'duration=50 ms', '--out', 'laws', '--json');
  expect([stderr, status]).toEqual(['', 0]);
  const document = JSON.parse(stdout) as EmbedDocument;
  expect(document).toMatchObject({ schema_version: 1, folder: 'laws', left_out: [] });
  expect(document.laws.map(({ id, runs }) => [id, runs])).toEqual([
    ['smoothing', 100],
    ['charge', 100],
    ['share', 5],
  ]);
  const laws = join(folder, 'laws');
  expect(readdirSync(laws).sort()).toEqual(document.files);
  execFileSync('sh', ['-c', document.compile], { cwd: laws });
  expect(execFileSync('./replay', { cwd: laws, encoding: 'utf8' })).toContain('share: 5 runs');
  const readme = readFileSync(join(laws, 'README.md'), 'utf8');
  expect(readme).toContain(document.compile);
  expect(readme).toContain("buswake embed bench-step --set 'duration=50 ms' --out laws");
  expect(readme).toMatch(/scenarios\/bench-step\.yaml {2}sha256 [0-9a-f]{64}/);
});

it('writes over nothing', () => {
  mkdirSync(join(folder, 'mine'));
  writeFileSync(join(folder, 'mine', 'mine.c'), '');
  const { stderr, status } = embed('--set', 'duration=20 ms', '--out', 'mine');
  expect(status).toBe(3);
  expect(stderr).toContain('a folder with files in it');
  expect(readdirSync(join(folder, 'mine'))).toEqual(['mine.c']);
});
