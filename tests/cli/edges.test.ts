/** What a name may be at the edges of the command line: of what kind it is, where it leads, how it is typed again. */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeSumList } from '../../src/disk/sum-list.ts';
import { standingCommand } from './standing/standing.ts';

const root = new URL('../../', import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'buswake-edges-'));

/** With something to read on standard input in a process of its own. */
function buswake(words: readonly string[], input = '') {
  if (input === '') {
    const { status, stdout, stderr } = standingCommand(words, folder);
    return { code: status, out: stdout, err: stderr };
  }
  const { status, stdout, stderr } = spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, ...words], {
    cwd: folder,
    encoding: 'utf8',
    input,
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: status, out: stdout, err: stderr };
}

const scenario = readFileSync(`${root}scenarios/single-step.yaml`, 'utf8').replace(
  '../models',
  `${root}models`,
);
const quick = ['--set', 'duration=0.2 s', '-q', '--workers', '1'];
const trays = ['--vary', 'trays.count=9 to 10'];

beforeAll(() => writeFileSync(join(folder, 'own.yaml'), scenario));
afterAll(() => rmSync(folder, { recursive: true }));

describe('a name without a slash', () => {
  it.each([
    ['check', []],
    ['response', []],
    ['size', trays],
  ])('is told by %s as what it is', (name, words) => {
    const made = { folder: `f-${name}`, pipe: `p-${name}`, loop: `l-${name}` };
    mkdirSync(join(folder, made.folder));
    spawnSync('mkfifo', [join(folder, made.pipe)]);
    symlinkSync(made.loop, join(folder, made.loop));
    expect(buswake([name, made.folder, ...words]).err).toContain(`${made.folder}, a folder`);
    expect(buswake([name, made.pipe, ...words]).err).toContain(`${made.pipe}, a pipe`);
    expect(buswake([name, made.loop, ...words]).err).toContain('links that lead in a circle');
  });

  it('that begins with a dash comes back in a form that can be typed', () => {
    cpSync(join(folder, 'own.yaml'), join(folder, '-own.yaml'));
    expect(buswake(['check', '--', '-own.yaml']).out).toMatch(/ run \.\/-own\.yaml\n$/);
  });
});

describe('a study', () => {
  const kept = join(folder, 'kept');

  it('takes its scenario, or itself, from standard input, and counts the simulations that it keeps', () => {
    const typed = buswake(['size', '-', ...trays, ...quick, '--out', kept], scenario);
    expect([typed.code, typed.err]).toEqual([6, '']);
    const { runs } = JSON.parse(readFileSync(join(kept, 'study.json'), 'utf8')) as { runs: number };
    expect(readFileSync(join(kept, 'trials.jsonl'), 'utf8').trimEnd().split('\n')).toHaveLength(1 + runs);
    const written =
      'study: spread\ntitle: of standard input\nscenario: own.yaml\nsamples: 2\ntolerances:\n  trays.esr: normal by 10 %\n';
    const spread = buswake(['spread', '-', ...quick, '--json'], written);
    expect([spread.err, JSON.parse(spread.out)]).toEqual([
      '',
      expect.objectContaining({ title: 'of standard input' }),
    ]);
  });

  it('of which a line was changed is mended by --resume, as export says', () => {
    const changed = join(folder, 'changed');
    cpSync(kept, changed, { recursive: true });
    const path = join(changed, 'trials.jsonl');
    const before = readFileSync(path, 'utf8');
    writeFileSync(path, before.replace('"verdict":"', '"verdict":"not '));
    writeSumList(changed, ['study.json', 'trials.jsonl', 'inputs.json']);
    expect(buswake(['export', changed, '--out', 'tables']).err).toContain('again with --out DIR --resume');
    const again = buswake(['size', '-', ...trays, ...quick, '--out', changed, '--resume'], scenario);
    expect([again.code, again.err]).toEqual([6, expect.stringContaining('1 line not as written')]);
    expect(readFileSync(path, 'utf8')).toBe(before);
    expect(buswake(['export', changed, '--out', 'tables']).code).toBe(0);
  });

  it('whose inputs or sums lead out of its folder is not exported, whatever its sums say', () => {
    const resealed = join(folder, 'resealed');
    cpSync(kept, resealed, { recursive: true });
    const inputs = join(resealed, 'inputs.json');
    writeFileSync(inputs, readFileSync(inputs, 'utf8').replace(/"file": "[^"]+"/, '"file": "../own.yaml"'));
    writeSumList(resealed, ['study.json', 'trials.jsonl', 'inputs.json']);
    expect(buswake(['export', resealed, '--out', 'never'])).toMatchObject({
      code: 3,
      err: expect.stringContaining('../own.yaml'),
    });
    cpSync(join(kept, 'inputs.json'), inputs);
    writeSumList(resealed, ['study.json', 'trials.jsonl', '../own.yaml']);
    expect(buswake(['export', resealed, '--out', 'never']).err).toContain('leads out of the folder');
  });

  it('that begins again takes its page with it, which shows what was found before', () => {
    const again = join(folder, 'again');
    cpSync(kept, again, { recursive: true });
    writeFileSync(join(again, 'page.html'), 'before');
    buswake(['size', '-', '--vary', 'trays.count=9 to 9', ...quick, '--out', again, '--force'], scenario);
    expect(existsSync(join(again, 'study.json'))).toBe(true);
    expect(existsSync(join(again, 'page.html'))).toBe(false);
  });

  it('is not written over, a file of it neither, and the inputs of a command neither, with --force neither', () => {
    symlinkSync('own.yaml', join(folder, 'link.yaml'));
    writeFileSync(join(folder, 'load.csv'), 'time_s,power_W\n0,1\n1,2\n2,1\n');
    const refused = (...words: string[]) => buswake([...words, '--force', '-q']).err;
    for (const place of ['own.yaml', 'link.yaml'])
      expect(refused('run', 'own.yaml', '--csv', place)).toContain(
        `${place}\n  found     a file that this command reads`,
      );
    expect(refused('trace', 'load.csv', '--out', 'load.csv')).toContain('a file that this command reads');
    for (const place of ['kept/study.json', 'kept/inputs/own.yaml', 'kept/trials.jsonl']) {
      if (!existsSync(join(folder, place))) continue;
      expect(refused('trace', 'load.csv', '--out', place)).toContain('a file of what is kept in');
      expect(refused('run', 'own.yaml', '--parquet', place)).toContain('a file of what is kept in');
    }
    expect(readFileSync(join(folder, 'own.yaml'), 'utf8')).toBe(scenario);
  });

  it('on more threads than make it quicker is refused', () => {
    const { code, err } = buswake(['size', 'own.yaml', ...trays, '--workers', '100000']);
    expect([code, err]).toEqual([2, expect.stringMatching(/write at most \d+: more threads than cores/)]);
  });

  it.each(['verify', 'compare'])('is told by %s as one, with what to do', (name) => {
    const { code, err } = buswake([name, kept, ...(name === 'compare' ? [kept] : [])]);
    expect([code, err.includes('a kept study, which is many runs')]).toEqual([3, true]);
  });
});

it('a second document in a file is refused at its line', () => {
  writeFileSync(join(folder, 'two.yaml'), `${scenario}\n---\ntitle: b\n`);
  const line = scenario.split('\n').length + 1;
  expect(buswake(['check', 'two.yaml']).err).toContain(`two.yaml:${line}:1\n  found     a second document`);
});

it('a working folder that is gone is told as such', () => {
  const gone = mkdtempSync(join(tmpdir(), 'gone-'));
  const typed = `cd '${gone}' && rmdir '${gone}' && exec '${process.execPath}' '${root}scripts/buswake.mjs' check pulse-train`;
  const { status, stderr } = spawnSync('sh', ['-c', typed], { encoding: 'utf8' });
  expect([status, stderr.split('\n').slice(0, 2)]).toEqual([
    3,
    ['working folder', '  found     one that is no longer there'],
  ]);
});

it('help on what is no command says so, with the nearest that is one', () => {
  const { code, err } = buswake(['help', 'rum']);
  expect([code, err]).toEqual([2, expect.stringContaining("unknown command 'rum'\n(Did you mean run?)")]);
  expect(buswake(['help', 'run']).code).toBe(0);
});

it.runIf(existsSync('/dev/full'))('what cannot be told on stderr is told by the exit code', () => {
  const typed = `exec '${process.execPath}' '${root}scripts/buswake.mjs' check nope 2>/dev/full`;
  expect(spawnSync('sh', ['-c', typed], { cwd: folder, encoding: 'utf8' }).status).toBe(3);
});
