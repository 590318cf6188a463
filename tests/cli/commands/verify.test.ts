import { cpSync, existsSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Verification } from '../../../src/bundle/verification.ts';
import { plain } from '../../../src/cli/terminal/paint.ts';
import { verificationText } from '../../../src/cli/terminal/verify-text.ts';
import { editJson, reseal, shortest } from '../../fixtures/kept-run.ts';
import { type Done, standingCommand } from '../standing/standing.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
let folder: string;
let kept: string;

function buswake(cwd: string, ...words: readonly string[]): Done {
  const { stdout, stderr, ...rest } = standingCommand(words, cwd);
  return { ...rest, stdout: stdout.replaceAll(folder, 'TMP'), stderr: stderr.replaceAll(folder, 'TMP') };
}

/** A scenario of the user's own, beside its own cabinet: kept, and its files then moved away. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'verify-'));
  for (const name of ['models', 'scenarios'])
    cpSync(join(root, name), join(folder, 'mine', name), { recursive: true });
  kept = join(folder, 'kept');
  const run = buswake(
    folder,
    ...['run', 'mine/scenarios/idle.yaml', '--set', 'duration=0.1 s', '--waive', 'trim=being retuned'],
    ...['--on', '2030-01-01', '--out', kept],
  );
  expect(`${run.stderr}${run.status}`).toBe('0');
  renameSync(join(folder, 'mine'), join(folder, 'elsewhere'));
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('buswake verify', () => {
  it('runs again what was kept, from another folder and without the files it was made from', () => {
    const { stdout, stderr, status } = buswake(root, 'verify', kept);
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    expect(stdout).toMatch(
      /^SAME {2}TMP\/kept run again from what it holds: report, channels and streams bit for bit\n/,
    );
    expect(stdout).toContain(
      'made from  mine/scenarios/idle.yaml and 10 other files, 1 change, judged for 2030-01-01\n',
    );
    expect(stdout.split('\n').length).toBeLessThan(25);
  });

  it('is what view does first where it is asked to, and the page says which was done', () => {
    const page = join(folder, 'page.html');
    const view = (...words: readonly string[]) =>
      buswake(root, 'view', kept, '--one-file', page, '--force', ...words);
    expect(view().status).toBe(0);
    expect(readFileSync(page, 'utf8')).toContain('It was not run again: buswake verify does that');
    const { stderr, status } = view('--verify');
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    expect(readFileSync(page, 'utf8')).toContain('came out the same, bit for bit');
  });

  it('says with exit code 4 what differs, though every sum is right', () => {
    const edited = join(folder, 'edited');
    cpSync(kept, edited, { recursive: true });
    editJson(edited, 'report.json', (report: { verdict: string }) => ({ ...report, verdict: 'fail' }));
    reseal(edited);
    const { stdout, status } = buswake(root, 'verify', edited);
    const page = buswake(root, 'view', edited, '--verify');
    expect([page.status, page.stdout, existsSync(join(edited, 'page.html'))]).toEqual([4, '', false]);
    expect(page.stderr).toContain('report.json is not the same');
    expect(status).toBe(4);
    expect(stdout).toMatch(
      /^DIFFERS {2}TMP\/edited run again from what it holds: report\.json is not the same\n/,
    );
    expect(stdout).toMatch(/^ {2}verdict +kept "fail" +again "pass_with_conditions"$/m);

    const document = JSON.parse(buswake(root, 'verify', edited, '--json').stdout) as Verification;
    expect(document).toMatchObject({
      schema_version: 1,
      same: false,
      build: { same: true },
      inputs_count: 11,
    });
    expect(document.files.find(({ name }) => name === 'report.json')).toEqual({
      name: 'report.json',
      differences_count: 1,
      first: [{ where: 'verdict', kept: '"fail"', again: '"pass_with_conditions"' }],
    });
  });

  it('refuses with exit code 3 what is not whole', () => {
    const cut = join(folder, 'cut');
    cpSync(kept, cut, { recursive: true });
    writeFileSync(join(cut, 'inputs/01-idle.yaml'), `${readFileSync(join(cut, 'inputs/01-idle.yaml'))}#`);
    const { stdout, stderr, status } = buswake(root, 'verify', cut);
    expect({ stdout, status }).toEqual({ stdout: '', status: 3 });
    expect(stderr).toMatch(/^TMP\/cut\/inputs\/01-idle\.yaml\n {2}found {5}\d+ bytes\n/);
    expect(buswake(root, 'verify', join(folder, 'none')).status).toBe(3);
  });
});

describe('verificationText()', () => {
  const build = { source_sha256: 'a1'.repeat(32), node_version: '20.1.0' };
  const same: Verification = {
    schema_version: 1,
    bundle: 'out/run',
    same: true,
    build: { kept: build, here: build, same: true },
    request: shortest,
    inputs_count: 11,
    summary: 'Passes: the bus comes closest.',
    not_compared: [],
    files: [{ name: 'report.json', differences_count: 0, first: [] }],
  };
  const other = { ...build, source_sha256: 'b2'.repeat(32) };
  const differs: Verification = {
    ...same,
    same: false,
    build: { kept: other, here: build, same: false },
    files: [
      ...same.files,
      {
        name: 'wake.f32',
        differences_count: 7,
        first: [{ where: 'S1.current_A largest, 0.1 s', kept: '91.7', again: '95.7' }],
      },
    ],
  };

  it('names another build before anything else', () => {
    expect(verificationText(differs, false, plain)).toMatchInlineSnapshot(`
      "another build made it: b2b2b2b2b2b2 on Node 20.1.0, here a1a1a1a1a1a1 on Node 20.1.0; results may rightly
                 differ
      DIFFERS  out/run run again from what it holds: wake.f32 is not the same
      made from  scenarios/idle.yaml and 10 other files, 1 change, judged for 2030-01-01
      run again  Passes: the bus comes closest.
      same       report.json

      wake.f32: 7 differences
        S1.current_A largest, 0.1 s  kept 91.7  again 95.7
        … and 6 more"
    `);
  });

  it('is one line where that is asked for, and the build where it is another', () => {
    expect(verificationText(same, true, plain).split('\n')).toHaveLength(1);
    expect(verificationText(differs, true, plain).split('\n')).toHaveLength(2);
  });
});
