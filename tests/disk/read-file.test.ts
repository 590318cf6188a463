/** What a user may name as a file, and what is refused before a byte of it is waited for. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BadInput } from '../../src/base/problem.ts';
import { eachPiece } from '../../src/disk/pieces.ts';
import { readBytes, readShortText, readTextFile } from '../../src/disk/read-file.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'named-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

function foundIn(read: () => unknown): string {
  try {
    read();
    return 'nothing';
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    return error.problems[0]!.found.replace(`${folder}/`, '');
  }
}

const at = (name: string): string => join(folder, name);

describe('a file that was named', () => {
  it('is refused where it is no regular file, at once', () => {
    mkdirSync(at('folder'));
    execFileSync('mkfifo', [at('pipe')]);
    symlinkSync('circle', at('circle'));
    writeFileSync(at('file'), 'x');
    // /proc/kmsg calls itself regular too, and waits for ever where it may be read.
    const named = [
      '/dev/zero',
      '/proc/uptime',

      at('folder'),
      at('pipe'),
      at('circle'),
      at('none'),
      at('file/below'),
    ];
    for (const read of [readTextFile, readBytes, readShortText])
      expect(named.map((path) => foundIn(() => read(path)))).toEqual([
        '/dev/zero, a device',
        '/proc/uptime, made by the system as it is read',
        'folder, a folder',
        'pipe, a pipe',
        'links that lead in a circle: circle',
        'no file none',
        'no file file/below',
      ]);
  });

  it('is a text where it is short, in UTF-8 and without zero bytes, and says else what it is', () => {
    const unfit = (bytes: string | Uint8Array): string | null => {
      writeFileSync(at('text'), bytes);
      const read = readTextFile(at('text'));
      expect(read.text === null).toBe(read.unfit !== null);
      return read.unfit;
    };
    expect(unfit('title: a\n')).toBeNull();
    expect(unfit('\uFEFFtitle: µ\n')).toBeNull();
    expect(unfit('x'.repeat(1 << 20))).toBeNull();
    expect(unfit('x'.repeat((1 << 20) + 1))).toBe('longer than 1 MB');
    expect(unfit(new Uint8Array([0x74, 0xff, 0xfe]))).toBe('bytes that are no text in UTF-8');
    expect(unfit('title: a\0b\n')).toBe('zero bytes, so no text');
    expect(foundIn(() => readShortText(at('text')))).toBe('text, zero bytes, so no text');
  });

  it('comes in pieces that stay as they are when they are kept', () => {
    const bytes = Uint8Array.from({ length: 600_000 }, (_, k) => (k * 7919) >> 5);
    writeFileSync(at('long'), bytes);
    const kept: Uint8Array[] = [];
    eachPiece(at('long'), 'long', (piece) => kept.push(piece.slice()));
    expect(kept.length).toBeGreaterThan(2);
    expect(Buffer.concat(kept).equals(bytes)).toBe(true);
  });
});

it('does not read on in what is too long, as standard input may have no end', () => {
  const script = new URL('../../scripts/buswake.mjs', import.meta.url).pathname;
  const { stdout } = spawnSync(
    'bash',
    ['-c', `yes | timeout 60 "${process.execPath}" "${script}" check - 2>&1; echo "\${PIPESTATUS[1]}"`],
    { encoding: 'utf8' },
  );
  expect(stdout).toContain('longer than 1 MB');
  expect(stdout.trimEnd().endsWith('3')).toBe(true);
});
