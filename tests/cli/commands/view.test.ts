import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeBundle } from '../../../src/bundle/write.ts';
import { syntheticRun } from '../../fixtures/run.ts';
import { standingCommand } from '../standing/standing.ts';

let dir: string;
let bundle: string;

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'view-'));
  bundle = join(dir, 'run');
  writeBundle(bundle, syntheticRun(2), { force: false });
});

afterAll(() => rmSync(dir, { recursive: true }));

function view(...words: readonly string[]): { status: number | null; stdout: string; stderr: string } {
  const { status, stdout, stderr } = standingCommand(['view', ...words]);
  return { status, stdout: stdout.replaceAll(dir, 'TMP'), stderr: stderr.replaceAll(dir, 'TMP') };
}

describe('buswake view', () => {
  it('writes the page into the bundle and says how to open it', () => {
    expect(view(bundle)).toEqual({
      status: 0,
      stdout: 'TMP/run/page.html\nOpen it in a browser: file://TMP/run/page.html\n',
      stderr: '',
    });
    const page = readFileSync(join(bundle, 'page.html'), 'utf8');
    expect(page).toMatch(/^<!doctype html>/);
    // Everything is inside: nothing is loaded from elsewhere, and the script is a classic one.
    expect(page.match(/<(?:script|link|img)[^>]*(?:src|href)="(?!data:)/g)).toBeNull();
    expect(page).not.toContain('type="module"');
    expect(readdirSync(bundle).filter((name) => name.includes('.buswake-'))).toEqual([]);
  });

  it('writes one file where it is asked to, and prints one JSON document', () => {
    const file = join(dir, 'one.html');
    const { status, stdout } = view(bundle, '--one-file', file, '--json');
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({ page: 'TMP/one.html', opens: 'file://TMP/one.html' });
    expect(existsSync(file)).toBe(true);
  });

  it('does not overwrite a file without --force', () => {
    const file = join(dir, 'mine.html');
    writeFileSync(file, 'keep me');
    const { status, stderr } = view(bundle, '--one-file', file);
    expect(status).toBe(3);
    expect(stderr).toContain('found     a file that exists already');
    expect(readFileSync(file, 'utf8')).toBe('keep me');
  });

  it('refuses a directory that is no bundle', () => {
    const { status, stdout, stderr } = view(join(dir, 'none'));
    expect({ status, stdout }).toEqual({ status: 3, stdout: '' });
    expect(stderr).toMatchInlineSnapshot(`
      "TMP/none/manifest.json
        found     no such file
        expected  the manifest of a bundle
        mend      name a directory that \`run --out\` wrote
      1 problem. Nothing was run.
      "
    `);
  });
});
