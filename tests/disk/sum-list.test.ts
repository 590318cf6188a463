import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { beforeEach, describe, expect, it } from 'vitest';
import { checkSumList, dropSumList, sumListName, writeSumList } from '../../src/disk/sum-list.ts';
import { folderOfEachTest } from '../fixtures/own-folder.ts';

const at = folderOfEachTest();
const names = ['a.txt', 'b.bin'];

describe('a list of sums', () => {
  beforeEach(() => {
    writeFileSync(at('a.txt'), 'first\n');
    writeFileSync(at('b.bin'), new Uint8Array([0, 255, 10]));
    writeSumList(at(), names);
  });

  it('is read by the coreutils too, and lets pass what it lists', () => {
    expect(() => checkSumList(at(), 'again')).not.toThrow();
    const { status, stdout } = spawnSync('sha256sum', ['-c', sumListName], { cwd: at(), encoding: 'utf8' });
    expect([status, stdout]).toEqual([0, 'a.txt: OK\nb.bin: OK\n']);
  });

  it('refuses any one byte changed, in what it lists and in itself', () => {
    let refused = 0;
    for (const name of [...names, sumListName]) {
      const bytes = readFileSync(at(name));
      for (let k = 0; k < bytes.length; k++) {
        const spoilt = Buffer.from(bytes);
        spoilt[k]! ^= 1 << (k % 8);
        writeFileSync(at(name), spoilt);
        expect(() => checkSumList(at(), 'again')).toThrow('mend      again');
        refused++;
      }
      writeFileSync(at(name), bytes);
    }
    expect(refused).toBe(6 + 3 + 3 * 64 + 'a.txt'.length + 'b.bin'.length + 2 * 3 + 3);
    expect(() => checkSumList(at(), 'again')).not.toThrow();
  });

  it('names every file that is not as it was', () => {
    writeFileSync(at('a.txt'), 'other\n');
    rmSync(at('b.bin'));
    expect(() => checkSumList(at(), 'again')).toThrow(
      /a\.txt\n {2}found {5}SHA-256.*b\.bin\n {2}found {5}no such file/s,
    );
    dropSumList(at());
    dropSumList(at());
    expect(() => checkSumList(at(), 'again')).toThrow(`${sumListName}\n  found     no such file`);
  });
});
