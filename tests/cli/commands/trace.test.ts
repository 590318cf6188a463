import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { standingCommand } from '../standing/standing.ts';

const root = fileURLToPath(new URL('../../..', import.meta.url));
let folder = '';

function buswake(args: readonly string[], input?: string | Buffer) {
  if (input === undefined) return standingCommand(args);
  const command = [join(root, 'scripts/buswake.mjs'), ...args];
  return spawnSync(process.execPath, command, { cwd: root, encoding: 'utf8', input });
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'trace-'));
  writeFileSync(join(folder, 'load.csv'), 't_s,power_W\n0,100\n1,300\n2,100\n');
});

describe('buswake trace', () => {
  test('writes no channel that a spreadsheet would take for a formula', () => {
    const out = join(folder, 'formula.csv');
    const text = 't_s,device,power_W\n0,"=cmd|1",3\n0,b,3\n1,"=cmd|1",5\n1,b,4\n';
    const { status, stderr } = buswake(['trace', '-', '--channel', 'device', '--out', out], text);
    expect([status, stderr.includes('SHA-256')]).toEqual([0, true]);
    expect(readFileSync(out, 'utf8')).toContain(`\n0,'=cmd|1,3\n`);
  });

  test('prints one JSON document with the keys that scripts rely on', () => {
    const { stdout, status } = buswake(['trace', join(folder, 'load.csv'), '--json']);
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      rows: 3,
      channels: [{ name: 'power_W', mean_W: 200, min_W: 100, max_W: 300, energy_J: 400 }],
      start: null,
      duration_s: 2,
      rate_median_Hz: 1,
      bandwidth_Hz: 0.44,
      gaps_count: 0,
      gap_total_s: 0,
      duplicates_count: 0,
      unsorted_count: 0,
      edits: [],
      total: { mean_W: 200, min_W: 100, max_W: 300, energy_J: 400 },
    });
  });

  test('leaves a blank in the next step for each thing that a replay asks and nothing says', () => {
    const next = (...more: readonly string[]) =>
      buswake(['trace', join(folder, 'load.csv'), ...more])
        .stdout.split('\n')
        .at(-2) ?? '';
    expect(next()).toMatch(
      / --side SIDE --at PLACE --copies 1, SIDE being dc or ac, PLACE being device, sled or rack$/,
    );
    expect(next('--side', 'dc')).toMatch(/ --side dc --at PLACE --copies 1, PLACE being /);
    // Behind a power supply a replay is refused until that is accepted.
    expect(next('--side', 'ac', '--at', 'rack')).toMatch(/ --at rack --side ac --accept-ac --copies 1$/);
  });

  test('reads stdin, writes a cleaned file once, and over it only by force', () => {
    const out = join(folder, 'clean.csv');
    expect(buswake(['trace', '-', '--out', out], 't_s,power_W\n1,5\n0,3\n').status).toBe(0);
    expect(readFileSync(out, 'utf8')).toBe('time_s,channel,power_W\n0,power_W,3\n1,power_W,5\n');
    const again = buswake(['trace', join(folder, 'load.csv'), '--out', out]);
    expect(again.status).toBe(3);
    expect(again.stdout).toBe('');
    expect(buswake(['trace', join(folder, 'load.csv'), '--out', out, '--force']).status).toBe(0);
    expect(readFileSync(out, 'utf8')).toContain('300');
  });

  test('ends with 3 and names the option on an ambiguous recording', () => {
    const { stdout, stderr, status } = buswake(['trace', '-'], 't_s,power\n0,1\n1,1\n');
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).toContain('give --unit UNIT, for example --unit W');
    expect(buswake(['trace', '-', '--unit', 'kW', '--json'], 't_s,power\n0,1\n1,1\n').status).toBe(0);
  });

  test('ends with 3 on a missing file and on a binary one', () => {
    expect(buswake(['trace', join(folder, 'none.csv')]).status).toBe(3);
    const binary = buswake(['trace', '-'], Buffer.from([0xff, 0xfe, 0x00, 0x41, 0xc3]));
    expect(binary.status).toBe(3);
    expect(binary.stderr).toContain('bytes that are not UTF-8');
  });

  test('--anonymise leaves out names, date and comments, and reads back as the same load', () => {
    const secret = join(folder, 'secret.csv');
    const shown = join(folder, 'shown.csv');
    writeFileSync(
      secret,
      '# cluster seven\ntime,node,power_W\n' +
        '2026-03-01T10:00:00Z,alpha,100\n2026-03-01T10:00:00Z,beta,50\n' +
        '2026-03-01T10:00:01Z,alpha,300\n2026-03-01T10:00:01Z,beta,150\n' +
        '2026-03-01T10:00:02Z,alpha,100\n2026-03-01T10:00:02Z,beta,50\n',
    );
    const args = ['trace', secret, '--channel', 'node', '--out', shown, '--anonymise', '--scale-to', '900 W'];
    const { stderr, status } = buswake(args);
    expect(status).toBe(0);
    expect(stderr).toContain('2 channels renamed 1 to 2 in an order drawn from seed 1');
    expect(stderr).toContain('start left out');
    expect(stderr).toContain('powers times 2.');
    const text = readFileSync(shown, 'utf8');
    expect(text).not.toMatch(/alpha|beta|seven|2026/);
    const read = JSON.parse(buswake(['trace', shown, '--json']).stdout);
    expect(read.start).toBeNull();
    expect(read.total).toMatchObject({ max_W: 900, min_W: 300, energy_J: 1200 });
    expect(read.channels.map(({ name }: { name: string }) => name)).toEqual(['1', '2']);
  });

  test('--anonymise says all that is wrong with its values at once', () => {
    const file = join(folder, 'load.csv');
    const out = join(folder, 'wrong.csv');
    const wrong = buswake(['trace', file, '--out', out, '--anonymise', '--seed', 'x', '--scale-to', '5']);
    expect(wrong.status).toBe(3);
    expect(wrong.stderr).toContain('5, a number without a unit');
    expect(wrong.stderr).toContain('2 problems');
    const alone = buswake(['trace', file, '--seed', '2']);
    expect([alone.status, alone.stdout]).toEqual([3, '']);
    expect(alone.stderr).toContain('add --anonymise');
  });
});
