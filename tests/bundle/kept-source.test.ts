/** A bundle gives its inputs as the disk gave them. */
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { DiskSource } from '../../src/bundle/disk-source.ts';
import { KeptSource } from '../../src/bundle/kept-source.ts';
import { packInput, unpackInput } from '../../src/bundle/pack-input.ts';
import { sha256 } from '../../src/bundle/sum.ts';
import type { InputSource } from '../../src/request/input-source.ts';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'source-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

function piecesOf(source: InputSource, path: string): { text: string; sum: string } {
  const parts: string[] = [];
  const sum = source.pieces(path, (text) => parts.push(text));
  return { text: parts.join(''), sum };
}

/** Longer than a piece, with characters of several bytes across its end. */
const long = `t_s,power_kW\n${'0,1 µs ∆\n'.repeat(40_000)}`;

it.each([
  ['UTF-8', Buffer.from(long)],
  ['UTF-8 with a byte order mark', Buffer.from(`\uFEFF${long}`)],
  ['UTF-16', Buffer.from(`\uFEFF${long}`, 'utf16le')],
  ['UTF-16, big end first', Buffer.from(`\uFEFF${long}`, 'utf16le').swap16()],
  ['no byte at all', Buffer.alloc(0)],
])('%s reads the same from a bundle as from the disk', (_what, bytes) => {
  const path = join(folder, 'load.csv');
  writeFileSync(path, bytes);
  const disk = new DiskSource({ keeps: true });
  const read = { pieces: piecesOf(disk, path), text: disk.text(path) };
  const kept = new KeptSource(disk.kept().map(unpackInput));
  expect({ pieces: piecesOf(kept, path), text: kept.text(path) }).toEqual(read);
  expect(kept.asked).toEqual([path]);
});

it('refuses bytes that are no text as the disk does', () => {
  const path = join(folder, 'load.csv');
  writeFileSync(path, Uint8Array.of(0x31, 0xff, 0xfe, 0x31));
  const input = { path, sha256: '0', bytes: Uint8Array.of(0x31, 0xff, 0xfe, 0x31) };
  for (const source of [new DiskSource(), new KeptSource([input])])
    expect(() => piecesOf(source, path)).toThrow('bytes that are not UTF-8');
});

it('names what it holds where it is asked for something else', () => {
  const source = new KeptSource([{ path: 'a.yaml', sha256: '0', bytes: new Uint8Array() }]);
  expect(() => source.text('b.yaml')).toThrow('one of its inputs: a.yaml');
});

it('does not keep a file that changed after it was read', () => {
  const path = join(folder, 'still-written.csv');
  writeFileSync(path, long);
  const disk = new DiskSource({ keeps: true });
  piecesOf(disk, path);
  appendFileSync(path, '1,1\n');
  expect(() => disk.kept()).toThrow('a file that changed while it was read');
});

it('packs what is long, leaves what is short readable, and makes names that any disk takes', () => {
  const pack = (path: string, text: string) => {
    const bytes = new TextEncoder().encode(text);
    const input = { path, sha256: sha256(bytes), bytes };
    const packed = packInput(input, 3);
    expect(Buffer.compare(unpackInput(packed).bytes, bytes)).toBe(0);
    return packed.file;
  };
  expect(pack('../x/my load: µ.csv', long)).toBe('inputs/03-my_load___.csv.gz');
  expect(pack('models/tray.yaml', 'a: 1\n')).toBe('inputs/03-tray.yaml');
  expect(pack('-', 'a: 1\n')).toBe('inputs/03-stdin');
});

it('refuses a packed input that is not what was summed', () => {
  const bytes = new TextEncoder().encode(long);
  const packed = packInput({ path: 'load.csv', sha256: sha256(bytes), bytes }, 1);
  expect(() => unpackInput({ ...packed, sha256: '0'.repeat(64) })).toThrow('SHA-256');
  expect(() => unpackInput({ ...packed, content: bytes })).toThrow('bytes that are not gzipped');
});
