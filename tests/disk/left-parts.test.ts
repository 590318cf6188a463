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
  mkdirSync(at(`run.${gone}.buswake-part`));
  writeFileSync(join(at(`run.${gone}.buswake-part`), 'half'), 'x');
  // What others call a part is theirs, whatever its number.
  const others = [
    `run.${process.pid}.buswake-part`,
    `runs.${gone}.buswake-part`,
    `run.x${gone}.buswake-part`,
    `run.${gone}.part`,
    `run.${gone}.old.part`,
    'run.part',
    'run.csv',
  ];
  for (const name of others) writeFileSync(at(name), 'x');
  clearLeftParts(at('run'));
  expect(readdirSync(at()).sort()).toEqual([...others].sort());
});

test('clearLeftParts() gives back its name to what was moved away and never replaced', () => {
  writeFileSync(at(`run.csv.${gone}.buswake-old`), 'kept');
  clearLeftParts(at('run.csv'));
  expect(readFileSync(at('run.csv'), 'utf8')).toBe('kept');
  writeFileSync(at(`run.csv.${gone}.buswake-old`), 'older');
  clearLeftParts(at('run.csv'));
  expect(readFileSync(at('run.csv'), 'utf8')).toBe('kept');
  expect(existsSync(at(`run.csv.${gone}.buswake-old`))).toBe(false);
});
