import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Bundle } from '../../src/bundle/format.ts';
import { readBundle } from '../../src/bundle/read.ts';
import { writeBundle } from '../../src/bundle/write.ts';
import { syntheticRun } from '../fixtures/run.ts';

let root: string;
let run: Bundle;

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'bundle-'));
  run = syntheticRun(2);
});

afterEach(() => rmSync(root, { recursive: true }));

/** Message of what was thrown, the temporary directory taken out. */
function refusal(act: () => unknown): string {
  try {
    act();
  } catch (error) {
    return (error as Error).message.replaceAll(root, 'TMP');
  }
  throw new Error('nothing was thrown');
}

describe('a bundle', () => {
  it('comes back from disk with the same bits', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    expect(readBundle(dir)).toEqual(run);
  });

  it('keeps NaN and infinities of a run that broke down', () => {
    const dir = join(root, 'run');
    const extremes = [{ channel: 'x', min: Number.NaN, min_s: 0, max: Number.NEGATIVE_INFINITY, max_s: 1 }];
    writeBundle(dir, { ...run, result: { ...run.result, extremes } }, { force: false });
    expect(readBundle(dir).result.extremes).toEqual(extremes);
  });

  it('refuses a report with a number that is not finite, and leaves nothing behind', () => {
    const metrics = { ...run.report.metrics, bus_min_V: Number.NaN };
    const write = () =>
      writeBundle(join(root, 'run'), { ...run, report: { ...run.report, metrics } }, { force: false });
    expect(refusal(write)).toBe('report: bus_min_V is NaN');
    expect(readdirSync(root)).toEqual([]);
  });

  it('leaves only the bundle in its parent directory', () => {
    writeBundle(join(root, 'deep', 'run'), run, { force: false });
    writeBundle(join(root, 'deep', 'run'), run, { force: true });
    expect(readdirSync(join(root, 'deep'))).toEqual(['run']);
  });
});

describe('writeBundle()', () => {
  it('refuses to overwrite a bundle without force', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    expect(refusal(() => writeBundle(dir, run, { force: false }))).toMatchInlineSnapshot(`
      "TMP/run
        found     a bundle that exists already
        expected  a name that is free, or a bundle and --force
        mend      choose another name, or give --force to replace it
      1 problem. Nothing was run."
    `);
  });

  it('never overwrites what is not a bundle, even with force', () => {
    const dir = join(root, 'precious');
    mkdirSync(dir);
    writeFileSync(join(dir, 'notes.txt'), 'keep me');
    expect(refusal(() => writeBundle(dir, run, { force: true }))).toMatchInlineSnapshot(`
      "TMP/precious
        found     something that is not a bundle
        expected  a name that is free, or a bundle and --force
        mend      choose another name; it is never overwritten
      1 problem. Nothing was run."
    `);
    expect(readFileSync(join(dir, 'notes.txt'), 'utf8')).toBe('keep me');
  });

  it('does not delete a stranger that lies in a bundle', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    writeFileSync(join(dir, 'notes.txt'), 'keep me');
    expect(refusal(() => writeBundle(dir, run, { force: true }))).toMatchInlineSnapshot(`
      "TMP/run
        found     a bundle with other files in it: notes.txt
        expected  a name that is free, or a bundle and --force
        mend      move those files elsewhere first
      1 problem. Nothing was run."
    `);
    expect(readFileSync(join(dir, 'notes.txt'), 'utf8')).toBe('keep me');
  });
});

describe('readBundle()', () => {
  it('recognises a file that was cut short and one that was changed, both at once', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    const wake = readFileSync(join(dir, 'wake.f32'));
    writeFileSync(join(dir, 'wake.f32'), wake.subarray(0, 1000));
    const report = readFileSync(join(dir, 'report.json'), 'utf8');
    writeFileSync(join(dir, 'report.json'), report.replace('"fail"', '"pass"'));
    const message = refusal(() => readBundle(dir)).replaceAll(/[0-9a-f]{64}/g, 'SUM');
    expect(message).toMatchInlineSnapshot(`
      "TMP/run/report.json
        found     SHA-256 SUM
        expected  SHA-256 SUM, as manifest.json says
        mend      the file was cut short or changed after it was written: run the scenario again with --out
      TMP/run/wake.f32
        found     1000 bytes
        expected  1081272 bytes, as manifest.json says
        mend      the file was cut short or changed after it was written: run the scenario again with --out
      2 problems. Nothing was run."
    `);
  });

  it('names a file that is missing', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    rmSync(join(dir, 'log.json'));
    expect(refusal(() => readBundle(dir))).toMatchInlineSnapshot(`
      "TMP/run/log.json
        found     no such file in the bundle
        expected  what happened, in time order
        mend      run the scenario again with --out
      1 problem. Nothing was run."
    `);
  });

  it('says what it wants where there is no bundle', () => {
    expect(refusal(() => readBundle(join(root, 'none')))).toMatchInlineSnapshot(`
      "TMP/none/manifest.json
        found     no such file
        expected  the manifest of a bundle
        mend      name a directory that \`run --out\` wrote
      1 problem. Nothing was run."
    `);
  });

  it('refuses a bundle of a later format', () => {
    const dir = join(root, 'run');
    writeBundle(dir, run, { force: false });
    const manifest = readFileSync(join(dir, 'manifest.json'), 'utf8');
    writeFileSync(join(dir, 'manifest.json'), manifest.replace('"version": 4', '"version": 9'));
    expect(refusal(() => readBundle(dir))).toMatchInlineSnapshot(`
      "TMP/run/manifest.json
        found     format version 9
        expected  format version 4
        mend      read it with the version of the tool that wrote it, or run the scenario again
      1 problem. Nothing was run."
    `);
  });
});
