import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { clearLeftParts } from '../../src/disk/left-parts.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'parts-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** A process that has been and is no more. */
const gone = spawnSync(process.execPath, ['--version']).pid;

test('clearLeftParts() removes what ended processes left of the target, files and folders, and nothing else', () => {
  mkdirSync(join(folder, `run.${gone}.part`));
  writeFileSync(join(folder, `run.${gone}.part`, 'half'), 'x');
  const others = [`run.${process.pid}.part`, `runs.${gone}.part`, 'run.part', `run.x${gone}.part`, 'run.csv'];
  for (const name of others) writeFileSync(join(folder, name), 'x');
  clearLeftParts(join(folder, 'run'));
  expect(readdirSync(folder).sort()).toEqual([...others].sort());
});

test('clearLeftParts() gives back its name to what was moved away and never replaced', () => {
  writeFileSync(join(folder, `run.csv.${gone}.old.part`), 'kept');
  clearLeftParts(join(folder, 'run.csv'));
  expect(readFileSync(join(folder, 'run.csv'), 'utf8')).toBe('kept');
  writeFileSync(join(folder, `run.csv.${gone}.old.part`), 'older');
  clearLeftParts(join(folder, 'run.csv'));
  expect(readFileSync(join(folder, 'run.csv'), 'utf8')).toBe('kept');
  expect(existsSync(join(folder, `run.csv.${gone}.old.part`))).toBe(false);
});
