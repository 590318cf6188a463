import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { exitCodeOf } from '../../../src/cli/commands/run.ts';
import { standingCommand } from '../standing/standing.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const script = [join(root, 'scripts/buswake.mjs')];
let folder = '';

const buswake = (...words: readonly string[]) => standingCommand(words);

/** A run as short as it may be. */
const quick = ['run', 'idle', '--set', 'duration=0.1 s'];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'run-'));
});

describe('exit codes', () => {
  test.each([
    ['ok', 'pass', 0],
    ['ok', 'pass_with_conditions', 0],
    ['ok', 'fail', 4],
    ['collapsed', 'fail', 4],
    ['non_finite', 'inconclusive', 5],
    ['audit_open', 'fail', 5],
    ['audit_open', 'inconclusive', 5],
    ['ok', 'inconclusive', 6],
    ['stopped', 'inconclusive', 130],
    ['stopped', 'fail', 130],
  ] as const)('a run that ends %s with %s exits with %d', (status, verdict, code) => {
    expect(exitCodeOf({ status, verdict })).toBe(code);
  });
});

describe('buswake run', () => {
  test('prints one screen on stdout and nothing on stderr where it is no terminal', () => {
    const { stdout, stderr, status } = buswake(...quick);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^PASS WITH CONDITIONS {2}/);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      "next keep and see it: node scripts/buswake.mjs run idle --set 'duration=0.1 s' --out out/run",
    );
    expect(stdout).not.toContain('\u001b');
    expect(stdout.trimEnd().split('\n').length).toBeLessThanOrEqual(25);
  });

  test('prints one JSON document, the same each time but for the engine’s timings', () => {
    const documents = [buswake(...quick, '--json'), buswake(...quick, '--json')].map(({ stdout }) => {
      const document = JSON.parse(stdout);
      expect(document.engine.wall_s).toBeGreaterThan(0);
      expect(document.engine.realtime_ratio).toBeGreaterThan(0);
      return { ...document, engine: { ...document.engine, wall_s: 0, realtime_ratio: 0 } };
    });
    expect(documents[0]).toEqual(documents[1]);
    expect(Object.keys(documents[0])).toEqual(
      expect.arrayContaining([
        'schema_version',
        'tool_version',
        'seed',
        'window_s',
        'status',
        'verdict',
        'findings',
        'metrics',
        'bands',
        'energy',
        'engine',
        'inputs',
      ]),
    );
    expect(documents[0].inputs).toContainEqual({ change: { path: 'duration', value: '0.1 s' } });
  });

  test('the numbers of the table are those of the document', () => {
    const document = JSON.parse(buswake(...quick, '--json').stdout);
    const { stdout } = buswake(...quick, '-v', '--steps');
    expect(document.responses).toMatchObject({ steps_count: 0, resolution_s: null });
    expect(stdout).toMatch(/^No response: no edge or event with enough of the run/m);
    const lowest = document.metrics.bus_min_V.toPrecision(4);
    expect(stdout).toMatch(new RegExp(`^bus lowest +${Number(lowest)} V`, 'm'));
  });

  test('a broken limit fails, and the verdict line names it', () => {
    const { stdout, status } = buswake(...quick, '--set', 'limits.bus-floor.normal=1.01', '-q');
    expect(status).toBe(4);
    expect(stdout).toMatch(/^FAIL {2}Bus never below 86 % is not met at \S+, 50\.\d+ V against 50\.5 V/);
    expect(stdout.trim().split('\n')).toHaveLength(1);
  });

  test('every run says the day it is judged for; a day that has passed conditions the pass', () => {
    const today = new Date().toISOString().slice(0, 10);
    expect(JSON.parse(buswake(...quick, '--json').stdout).judged_on).toBe(today);
    const past = JSON.parse(buswake(...quick, '--on', '2020-02-29', '--json').stdout);
    expect([past.judged_on, past.verdict]).toEqual(['2020-02-29', 'pass_with_conditions']);
    expect(past.summary).toContain('on condition: judged on 2020-02-29, a day before');
  });

  test('a limit that was changed is in the headline, the basis and its own source', () => {
    const { findings, summary, basis } = JSON.parse(
      buswake(...quick, '--set', 'limits.trim.normal=300 %', '--json').stdout,
    );
    expect(summary).toContain('limit trim, normal: 80 % → 300 % (looser)');
    expect(basis).toContainEqual(expect.objectContaining({ kind: 'limits', by: '--set', conditions: true }));
    expect(findings.find(({ id }: { id: string }) => id === 'trim').source).toMatch(
      /^changed: normal from 80 % to 300 % by --set; before that assumed/,
    );
  });

  test('an unknown path is bad input, an unknown option a malformed command line', () => {
    expect(buswake('run', 'idle', '--set', 'trays.colour=blue').status).toBe(3);
    expect(buswake('run', 'idle', '--colour').status).toBe(2);
    expect(buswake('run', 'no-such-scenario').status).toBe(3);
  });

  test('--out keeps the run whole; a second one is refused before anything is run', () => {
    const out = join(folder, 'kept');
    expect(buswake(...quick, '--out', out).status).toBe(0);
    expect(readdirSync(out)).toContain('report.json');
    const again = buswake(...quick, '--out', out);
    expect(again.status).toBe(3);
    expect(again.stdout).toBe('');
    expect(again.stderr).toContain('--force');
    expect(buswake(...quick, '--out', out, '--force').status).toBe(0);
  });

  test('--load replays a recording; what it cannot show is inconclusive', () => {
    const rows = Array.from({ length: 101 }, (_, k) => `${k * 0.02},${100 + (k % 3)}`);
    const file = join(folder, 'load.csv');
    writeFileSync(file, `t_s,power_kW\n${rows.join('\n')}\n`);
    const { stdout, stderr, status } = buswake(
      ...quick,
      '--load',
      file,
      '--at',
      'rack',
      '--side',
      'dc',
      '--copies',
      '1',
      '--json',
    );
    expect(stderr).toBe(`Plays ${file} from 0 s to 0.1 s of its 2 s; --from moves the start.\n`);
    expect(status).toBe(0);
    const report = JSON.parse(stdout);
    expect(report.scenario.title).toBe('load.csv in place of the load of idle');
    expect(report.verdict).toBe('pass_with_conditions');
    const floor = report.findings.find((f: { id: string }) => f.id === 'bus-floor');
    expect(floor.verdict).toBe('inconclusive');
    expect(floor.reason).toBe('needs content up to 10000 Hz; the recording shows up to 22 Hz');
    expect(report.inputs).toContainEqual(expect.objectContaining({ path: relative(root, file) }));
  });

  test('a replay asks on which side and where it was recorded, unless its columns say', () => {
    const file = join(folder, 'nowhere.csv');
    writeFileSync(file, 't_s,power_kW\n0,100\n1,101\n2,100\n');
    const { stderr, status } = buswake(...quick, '--load', file, '--copies', '1');
    expect(status).toBe(3);
    expect(stderr).toContain('give --side dc or --side ac');
    expect(stderr).toContain('give --at device, --at sled or --at rack');
    const ac = join(folder, 'ac.csv');
    writeFileSync(ac, 't_s,rack_ac_kW\n0,100\n1,101\n2,100\n');
    const wall = buswake(...quick, '--load', ac, '--copies', '1');
    expect(wall.status).toBe(3);
    expect(wall.stderr).toContain('column rack_ac_kW speaks for ac');
    expect(buswake('trace', ac).status).toBe(3);
    expect(buswake('trace', ac, '--side', 'ac').status).toBe(0);
    expect(buswake('trace', file).stdout).toContain('Not stated: side of the power supply');
  });

  test('problems with a replay name the option that was typed', () => {
    const file = join(folder, 'short.csv');
    writeFileSync(file, 't_s,power_kW\n0,100\n1,101\n2,100\n');
    const load = ['run', 'idle', '--load', file, '--at', 'rack'];
    const dc = ['--side', 'dc'];
    const short = ['--set', 'duration=0.1 s'];
    expect(buswake(...load, ...dc, ...short).stderr).toMatch(
      /^--load\n {2}found .* without a number of copies\n[\s\S]*--copies N/,
    );
    const copies = [...load, '--copies', '1'];
    const first = (...args: string[]) => {
      const { stderr, status } = buswake(...copies, ...args);
      expect(status).toBe(3);
      return stderr.split('\n').filter((line) => !/^(Plays|The stretch)/.test(line));
    };
    expect(first(...dc, ...short, '--from', '1')[0]).toBe('--from  load.from');
    expect(first(...dc, ...short, '--edge', '1')[0]).toBe('--edge  load.edge');
    expect(first(...short, '--side', 'ac')[0]).toBe('--side  load.reading.side');
    const long = first(...dc, '--set', 'duration=4 s');
    expect(long[0]).toBe('--load  load.to');
    expect(long[3]).toContain('--set duration="2 s"');
    expect(buswake('size', 'idle', '--vary', 'trays.cuont=4 to 5').stderr).toMatch(
      /^--vary {2}trays.cuont\n/,
    );
  });

  test('of a recording read both ways the reading that collapses is the result', () => {
    const file = join(folder, 'spike.csv');
    const rows = Array.from({ length: 41 }, (_, k) => `${k / 50},${k === 20 ? 1500 : 100}`);
    writeFileSync(file, `t_s,power_kW\n${rows.join('\n')}\n`);
    const as = (edges: string) => {
      const words = [
        '--load',
        file,
        '--at',
        'rack',
        '--side',
        'dc',
        '--copies',
        '1',
        '--edges',
        edges,
        ...(edges === 'smooth' ? [] : ['--edge', '50 us']),
      ];
      const report = JSON.parse(buswake('run', 'idle', '--set', 'duration=0.7 s', ...words, '--json').stdout);
      return [report.status, report.window_s.to] as const;
    };
    expect(as('smooth')).toEqual(['ok', 0.7]);
    const sharp = as('sharp');
    expect(sharp[0]).toBe('collapsed');
    expect(as('both')).toEqual(sharp);
  });

  test.each([
    ['Ctrl-C', 'SIGINT', []],
    ['kill', 'SIGTERM', ['--csv', join(folder, 'stopped.csv')]],
  ] as const)('%s says so, leaves nothing and exits with 130', async (_, signal, more) => {
    const out = join(folder, 'stopped');
    let status: number | null = null;
    let stderr = '';
    let stdout = '';
    // Before its modules are read a process cannot answer and just dies (null): on a busy machine, wait longer.
    for (let wait = 2000; status === null && wait <= 32_000; wait *= 2) {
      const long = ['run', 'ac-loss-and-return', '--set', 'duration=1000 s', '--out', out, ...more];
      const child = spawn(process.execPath, [...script, ...long], { cwd: root });
      child.stdout.on('data', (part) => {
        stdout += part;
      });
      child.stderr.on('data', (part) => {
        stderr += part;
      });
      setTimeout(() => child.kill(signal), wait);
      status = await new Promise((resolve) => {
        child.on('exit', resolve);
      });
    }
    expect(status).toBe(130);
    expect(stderr).toContain('Stopping.');
    expect(stdout).toBe('');
    expect(existsSync(out)).toBe(false);
    expect(readdirSync(folder).filter((name) => /\.buswake-|stopped/.test(name))).toEqual([]);
  });

  test('Ctrl-C while a run is being kept comes too late: it is kept whole', async () => {
    const place = join(folder, 'kept-whole');
    mkdirSync(place);
    const words = ['run', 'pulse-train', '--set', 'duration=6.4 s', '-q', '--out', join(place, 'run')];
    const child = spawn(process.execPath, [...script, ...words], { cwd: root });
    const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
    // Something of it is there: a folder that is tried at the beginning is empty.
    while (readdirSync(place, { recursive: true }).length < 2)
      await new Promise((resolve) => setTimeout(resolve, 1));
    child.kill('SIGINT');
    // null: it died of the signal.
    expect(await ended).not.toBeNull();
    expect(readdirSync(place)).toEqual(['run']);
  });
});
