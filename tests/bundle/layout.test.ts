/** The page on a bundle's layout is true: its files, and its reader in another language, bit for bit. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { columnsOf } from '../../src/bundle/columns.ts';
import { contents, formatName, formatVersion } from '../../src/bundle/format.ts';
import { readBundle } from '../../src/bundle/read.ts';
import { sha256 } from '../../src/bundle/sum.ts';
import type { Result } from '../../src/engine/result.ts';
import { keepRun, shortest } from '../fixtures/kept-run.ts';

const page = readFileSync('src/bundle/layout.md', 'utf8');
const reader = /```python\n([\s\S]*?)```/.exec(page)![1]!;
const hasPython = spawnSync('python3', ['--version']).status === 0;

let folder: string;
let result: Result;

beforeAll(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'layout-')), 'run');
  keepRun(folder, shortest);
  ({ result } = readBundle(folder));
});

afterAll(() => rmSync(join(folder, '..'), { recursive: true }));

/** Runs the page's reader, then `lines`; what they print as JSON. */
function python(...lines: readonly string[]): unknown {
  const program = [
    reader,
    'import sys',
    'columns, edges_s, envelopes, close_ups = read_run(sys.argv[1])',
    ...lines,
  ];
  const { stdout, stderr } = spawnSync('python3', ['-c', program.join('\n'), folder], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  expect(stderr).toBe('');
  return JSON.parse(stdout);
}

/** Numbers as Python packs them, so that not a bit is lost on the way: SHA-256 of their bytes as binary64. */
const summed = [
  'import hashlib',
  'def sum_of(values): return hashlib.sha256(struct.pack(f"<{len(values)}d", *values)).hexdigest()',
];

function sumOf(values: ArrayLike<number>): string {
  return sha256(new Uint8Array(Float64Array.from(values).buffer));
}

describe('the page on the layout', () => {
  it('names every file, and the format', () => {
    for (const name of Object.keys(contents)) expect(page).toContain(`\`${name}\``);
    expect(page).toContain(`(\`${formatName}\`, ${formatVersion})`);
  });

  it.skipIf(!hasPython)('holds a reader that gives every column bit for bit', () => {
    const read = python(...summed, 'print(json.dumps({name: sum_of(v) for name, v in columns.items()}))');
    expect(read).toEqual(
      Object.fromEntries(columnsOf(result).map(({ name, values }) => [name, sumOf(values)])),
    );
  });

  it.skipIf(!hasPython)('holds a reader that gives every envelope bit for bit', () => {
    const { recording } = result;
    expect(python(...summed, 'print(json.dumps(sum_of(edges_s)))')).toBe(sumOf(recording.edges_s));
    const read = python(
      ...summed,
      'print(json.dumps({id: [sum_of(of) for of in envelope] for id, envelope in envelopes.items()}))',
    );
    expect(read).toEqual(
      Object.fromEntries(
        recording.channels.map(({ id }, c) => [
          id,
          [recording.min, recording.max, recording.mean].map((of) => sumOf(of[c]!)),
        ]),
      ),
    );
  });

  it.skipIf(!hasPython)('holds a reader that gives every close-up bit for bit', () => {
    const { channels, closeUps } = result.recording;
    expect(closeUps.length).toBeGreaterThan(0);
    const read = python(
      ...summed,
      'print(json.dumps([[sum_of(t), {id: sum_of(v) for id, v in of.items()}] for t, of in close_ups]))',
    );
    expect(read).toEqual(
      closeUps.map(({ time_s, values }) => [
        sumOf(time_s),
        Object.fromEntries(channels.map(({ id }, c) => [id, sumOf(values[c]!)])),
      ]),
    );
  });

  it('says truly what the manifest’s sum is of', () => {
    const bytes = readFileSync(join(folder, 'manifest.json'));
    const text = bytes.toString('utf8');
    const cut = text.lastIndexOf('\n "sum": "') + 1;
    expect(sha256(Buffer.from(text.slice(0, cut)))).toBe(/"sum": "(\w+)"/.exec(text.slice(cut))![1]);
  });
});
