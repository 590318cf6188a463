import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { clearLeftParts } from '../../src/disk/left-parts.ts';
import { folderOfEachTest } from '../fixtures/own-folder.ts';

const at = folderOfEachTest();

/** A process that has been and is no more. */
const gone = spawnSync(process.execPath, ['--version']).pid;

test('clearLeftParts() removes what ended processes left of the target, files and folders, and nothing else', () => {
  mkdirSync(at(`run.${gone}.part`));
  writeFileSync(join(at(`run.${gone}.part`), 'half'), 'x');
  const others = [`run.${process.pid}.part`, `runs.${gone}.part`, 'run.part', `run.x${gone}.part`, 'run.csv'];
  for (const name of others) writeFileSync(at(name), 'x');
  clearLeftParts(at('run'));
  expect(readdirSync(at()).sort()).toEqual([...others].sort());
});

test('clearLeftParts() gives back its name to what was moved away and never replaced', () => {
  writeFileSync(at(`run.csv.${gone}.old.part`), 'kept');
  clearLeftParts(at('run.csv'));
  expect(readFileSync(at('run.csv'), 'utf8')).toBe('kept');
  writeFileSync(at(`run.csv.${gone}.old.part`), 'older');
  clearLeftParts(at('run.csv'));
  expect(readFileSync(at('run.csv'), 'utf8')).toBe('kept');
  expect(existsSync(at(`run.csv.${gone}.old.part`))).toBe(false);
});
