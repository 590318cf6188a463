import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { claim, claimName } from '../../src/disk/claim.ts';
import { folderOfEachTest } from '../fixtures/own-folder.ts';

const at = folderOfEachTest();

/** A process that has been and is no more. */
const gone = spawnSync(process.execPath, ['--version']).pid;

test('claim() takes over what ended processes left, whatever they wrote, and its own', () => {
  for (const left of [`${gone}\n`, '', 'x', '-1', '0']) {
    writeFileSync(at(claimName), left);
    claim(at());
    claim(at());
    expect(readFileSync(at(claimName), 'utf8')).toBe(`${process.pid}\n`);
  }
});

test('claim() refuses a folder that a running process holds, and leaves it its claim', () => {
  writeFileSync(at(claimName), `${process.ppid}\n`);
  expect(() => claim(at())).toThrow(`a folder that process ${process.ppid} is writing to`);
  expect(readFileSync(at(claimName), 'utf8')).toBe(`${process.ppid}\n`);
});

test('a claim ends with its process', () => {
  const text = `import { claim } from ${JSON.stringify(new URL('../../src/disk/claim.ts', import.meta.url).pathname)}; claim(process.argv[1]);`;
  const { status } = spawnSync(process.execPath, [
    '--import',
    'tsx',
    '--input-type=module',
    '-e',
    text,
    at('new'),
  ]);
  expect([status, readdirSync(at('new'))]).toEqual([0, []]);
});
