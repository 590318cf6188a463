/** The real process: stdout, stderr and exit code. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { standingCommand } from '../standing/standing.ts';

const root = new URL('../../../', import.meta.url).pathname;

function buswake(words: readonly string[], cwd = root, input = '') {
  const run = input === '' ? standingCommand(words, cwd) : withInput(words, cwd, input);
  return { code: run.status, out: run.stdout, err: run.stderr };
}

function withInput(words: readonly string[], cwd: string, input: string) {
  return spawnSync(process.execPath, [`${root}scripts/buswake.mjs`, ...words], {
    cwd,
    input,
    encoding: 'utf8',
  });
}

describe('buswake', () => {
  it('without arguments prints a short help with an example and ends with 2', () => {
    const { code, out, err } = buswake([]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('Example:\n  node scripts/buswake.mjs run pulse-train\n');
  });

  it('suggests a command, never runs the guess, and ends with 2', () => {
    expect(buswake(['chekc', 'pulse-train'])).toEqual({
      code: 2,
      out: '',
      err: "error: unknown command 'chekc'\n(Did you mean check?)\n",
    });
    expect(buswake(['check', 'pulse-train', '--jsno'])).toEqual({
      code: 2,
      out: '',
      err: "error: unknown option '--jsno'\n(Did you mean --json?)\n",
    });
  });

  it('prints help and version on stdout and ends with 0', () => {
    const help = buswake(['--help']);
    expect([help.code, help.err]).toEqual([0, '']);
    expect(help.out).toMatch(/\n {2}check \[options\] +read a scenario/);
    expect(buswake(['--version']).out).toMatch(/^0\.1\.0 \(build [0-9a-f]{12}\)\n$/);
  });
});

describe('buswake check', () => {
  it('says what would be run, with units', () => {
    const { code, out, err } = buswake(['check', 'tray-out']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatchInlineSnapshot(`
      "tray-out: Pulse train with a tray out
        expected  passes by the degraded limits
        cabinet   240 kW at 50 V
                  2 feeders, 8 shelves (288 kW), 10 trays (200 kW, about 842 kJ), 2 banks (160 mF), 5 battery shelves (300 kW), 16 sleds (240 kW peak)
        bars      places: A 13, B 12; 4 link bars, tie closed
        load      pulses of 100 kW to 240 kW every 1.6 s, 70 % high, edges of 5 ms
        run       30 s in steps of 50 µs, from the load's converged cycle
        events    tray-out T4 at 5 s
        limits    67 rows, degraded column
      11 files read, no problems, no warnings. To run it: node scripts/buswake.mjs run tray-out
      "
    `);
  });

  it('prints one JSON document whose numbers are SI', () => {
    const { code, out } = buswake([
      'check',
      'scenarios/pulse-train.yaml',
      '--json',
      '--set',
      'load.high=200 kW',
    ]);
    expect(code).toBe(0);
    const document = JSON.parse(out) as Record<string, unknown>;
    expect(document).toMatchObject({
      schema_version: 1,
      rated_W: 240_000,
      counts: { shelves: 8, trays: 10, banks: 2, batteries: 5, sleds: 16 },
      load: { kind: 'pulse-train', low_W: 100_000, high_W: 200_000 },
      changes: [{ path: 'load.high', value: '200 kW' }],
      warnings: [],
    });
  });

  it('prints warnings on stderr and still ends with 0', () => {
    const { code, err } = buswake(['check', 'pulse-train', '-q', '--set', 'banks.capacitance=22 F']);
    expect(code).toBe(0);
    expect(err).toMatchInlineSnapshot(`
      "warning  --set  banks.capacitance
        found     22 F
        expected  usually 10 mF to 500 mF on a bus of 50 V (whole bank)
        mend      keep it if it is meant
      "
    `);
  });

  it('ends with 3 on bad input, problems on stderr', () => {
    const { code, out, err } = buswake(['check', 'pulse-train', '--set', 'trays.capactance=1 F']);
    expect([code, out]).toEqual([3, '']);
    expect(err).toMatchInlineSnapshot(`
      "--set  trays.capactance
        found     path trays.capactance
        expected  a path of the scenario, for example trays.capacitance or trays.T4.capacitance
        mend      nearest: trays.capacitance, trays.T1.capacitance, trays.T2.capacitance
      1 problem. Nothing was run.
      "
    `);
  });

  it('prints the problems as JSON on stdout where asked', () => {
    const { code, out } = buswake(['check', 'pulse-train', '--json', '--set', 'load.low=5 V']);
    expect(code).toBe(3);
    expect(JSON.parse(out)).toEqual({
      schema_version: 1,
      problems: [
        {
          severity: 'error',
          file: '--set',
          path: 'load.low',
          found: '5 V, which is a voltage',
          expected: 'a power, for example 36 kW',
          mend: 'write it like 36 kW',
        },
      ],
    });
  });

  it('ends with 3 for a scenario that does not exist and names the nearest', () => {
    const { code, err } = buswake(['check', 'pulse-trian']);
    expect(code).toBe(3);
    expect(err).toContain('did you mean pulse-train, pulse-train-400v or pulse-train-800v?');
    expect(buswake(['check', 'nowhere/x.yaml'])).toMatchObject({ code: 3 });
    expect(buswake(['check', 'scenarios/'])).toMatchObject({ code: 3 });
  });

  it('ends with 2 for a change that is no path=value', () => {
    for (const word of ['load.high', '=5', 'load.high=']) {
      expect(buswake(['check', 'pulse-train', '--set', word]), word).toMatchObject({ code: 2, out: '' });
    }
  });

  it('finds shipped scenarios from any folder, and reads a scenario of the user there', () => {
    const folder = mkdtempSync(join(tmpdir(), 'buswake-'));
    expect(buswake(['check', 'idle', '-q'], folder)).toEqual({ code: 0, out: '', err: '' });
    const mine = `title: Mine\ncabinet: ${root}models/reference-cabinet.yaml\nduration: 1 s\nload: { kind: constant, power: 50 kW }\n`;
    writeFileSync(join(folder, 'mine.yaml'), mine);
    expect(buswake(['check', 'mine.yaml'], folder).out).toContain('mine: Mine\n');
    expect(buswake(['check', '-'], folder, mine).out).toContain('constant 50 kW');
  });
});
