/** What is written is whole or not there, and what cannot be written is said of the place that was named. */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { onDisk } from '../../src/disk/on-disk.ts';
import { Part } from '../../src/disk/part.ts';
import { refuseUnwritable } from '../../src/disk/refuse-unwritable.ts';
import { refuseExisting, writeWhole } from '../../src/disk/write-file.ts';
import { folderOfEachTest } from '../fixtures/own-folder.ts';

const at = folderOfEachTest();

describe('writing', () => {
  it('replaces a file, and a folder, and leaves nothing beside it', () => {
    writeWhole(at('a/b/file'), 'old');
    writeWhole(at('a/b/file'), 'new');
    expect(readFileSync(at('a/b/file'), 'utf8')).toBe('new');
    for (const text of ['old', 'new']) {
      const part = new Part(at('run'), 'folder', { force: true });
      mkdirSync(part.path);
      writeFileSync(join(part.path, text), text);
      part.keep();
    }
    expect(readdirSync(at('run'))).toEqual(['new']);
    expect(readdirSync(at('a/b'))).toEqual(['file']);
  });

  it('over nothing leaves what came to lie there meanwhile, file and folder', () => {
    for (const as of ['file', 'folder'] as const) {
      const part = new Part(at(as), as, { force: false });
      if (as === 'file') writeFileSync(part.path, 'new');
      else mkdirSync(join(part.path, 'new'), { recursive: true });
      if (as === 'folder') mkdirSync(at(as));
      writeFileSync(as === 'file' ? at(as) : join(at(as), 'mine'), 'mine');
      expect(() => part.keep()).toThrow('something that came to lie there meanwhile');
      expect(() => part.keep()).toThrow('Nothing was kept.');
      part.drop();
    }
    expect(readFileSync(at('file'), 'utf8')).toBe('mine');
    expect(readdirSync(at('folder'))).toEqual(['mine']);
    expect(readdirSync(at()).toSorted()).toEqual(['file', 'folder']);
    writeWhole(at('free'), 'new', { force: false });
    expect(readFileSync(at('free'), 'utf8')).toBe('new');
    expect(() => writeWhole(at('free'), 'newer', { force: false })).toThrow('came to lie there');
  });

  it('never replaces a folder by a file, whatever was said', () => {
    writeWhole(at('mine/deep/thesis.txt'), 'years');
    symlinkSync('mine', at('link'));
    for (const target of [at('mine'), at('link'), at('mine/deep')])
      for (const work of [() => writeWhole(target, 'x'), () => refuseExisting([target], true)])
        expect(work).toThrow('found     a folder');
    expect(readFileSync(at('mine/deep/thesis.txt'), 'utf8')).toBe('years');
  });

  it('leaves the old file as it was where the new one cannot be kept', () => {
    writeWhole(at('file'), 'old');
    const part = new Part(at('file'), 'file', { force: true });
    writeFileSync(part.path, 'half');
    part.drop();
    expect(readFileSync(at('file'), 'utf8')).toBe('old');
    expect(readdirSync(at())).toEqual(['file']);
  });

  it('says what the file system said, of the place that was named', () => {
    writeFileSync(at('file'), 'x');
    for (const target of [at('file/below'), at('file/below/it')]) {
      expect(() => writeWhole(target, 'x')).toThrow('a path that leads through a file');
      expect(() => refuseUnwritable(target)).toThrow('a path that leads through a file');
    }
    expect(() => writeWhole(at('n'.repeat(300)), 'x')).toThrow('a name that is too long');
    expect(() => refuseUnwritable('/proc/none')).toThrow('a place that cannot be written');
    symlinkSync('loop', at('loop'));
    expect(() => refuseUnwritable(at('loop/new/one'))).toThrow('a place that cannot be written (ELOOP)');
    const full = Object.assign(new Error('write'), { code: 'ENOSPC' });
    expect(() =>
      onDisk('out', () => {
        throw full;
      }),
    ).toThrow('a disk that is full');
    expect(() =>
      onDisk('out', () => {
        throw new TypeError('ours');
      }),
    ).toThrow('ours');
  });

  it('finds out beforehand, and leaves no trace of it', () => {
    refuseUnwritable(at('new/deeper/run'));
    expect(existsSync(at('new'))).toBe(false);
    expect(readdirSync(at())).toEqual([]);
  });

  // A limit on the size of files stands for a disk that is full: both refuse in the middle of a write.
  it('leaves nothing behind of what grows too large for its place', () => {
    const module = new URL('../../src/disk/write-file.ts', import.meta.url).pathname;
    const code = `import { writeWhole } from '${module}'; process.on('SIGXFSZ', () => {}); writeWhole('${at('big')}', 'x'.repeat(3e6));`;
    const { stderr, status } = spawnSync(
      'bash',
      ['-c', `ulimit -f 1000; exec '${process.execPath}' --import tsx --input-type=module -e "$CODE"`],
      { encoding: 'utf8', env: { ...process.env, CODE: code } },
    );
    expect(status).toBe(1);
    expect(stderr).toContain('a file that grows beyond what is allowed there');
    expect(readdirSync(at())).toEqual([]);
  });
});

describe('in place of what is no file', () => {
  it('a blank name, and what is open by its number, are told as that', () => {
    for (const blank of ['', ' ', '\t'])
      for (const work of [() => writeWhole(blank, 'x'), () => refuseUnwritable(blank)])
        expect(work).toThrow('a blank name');
    // Standard output redirected to a file: `/dev/stdout` leads to it, and a new file there would not be the one held open.
    const module = new URL('../../src/disk/write-file.ts', import.meta.url).pathname;
    const code = `import { writeWhole } from '${module}'; for (const place of ['/dev/stdout', '/dev/fd/1', '/proc/self/fd/1'])
      try { writeWhole(place, 'x'); } catch (error) { console.log(error.message); }`;
    spawnSync(
      'bash',
      ['-c', `'${process.execPath}' --import tsx --input-type=module -e "$CODE" > '${at('redirected')}'`],
      { env: { ...process.env, CODE: code } },
    );
    const told = readFileSync(at('redirected'), 'utf8');
    expect(told.match(/what is open here, by its number/g)).toHaveLength(3);
    expect(readdirSync(at())).toEqual(['redirected']);
  });

  it('a pipe stays what it is, and a link that leads nowhere is told as one', () => {
    const [pipe, link] = [at('pipe'), at('link')];
    spawnSync('mkfifo', [pipe]);
    symlinkSync('nowhere', link);
    expect(() => writeWhole(pipe, 'x')).toThrow('a device, a pipe or a socket');
    expect(lstatSync(pipe).isFIFO()).toBe(true);
    expect(() => writeWhole(link, 'x')).toThrow('a link that leads nowhere');
  });

  it('through a link its file is written, and the link stays', () => {
    const [file, link] = [at('file'), at('to-file')];
    writeFileSync(file, 'old');
    symlinkSync('file', link);
    writeWhole(link, 'new');
    expect([readFileSync(file, 'utf8'), lstatSync(link).isSymbolicLink()]).toEqual(['new', true]);
  });
});
