import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askedFor } from '../../../src/cli/terminal/ask.ts';
import { questions } from '../../../src/shipped/draft/answers.ts';
import { standingCommand } from '../standing/standing.ts';

const script = new URL('../../../scripts/buswake.mjs', import.meta.url).pathname;

describe('new', () => {
  let cwd: string;

  beforeAll(() => {
    cwd = mkdtempSync(join(tmpdir(), 'buswake-new-'));
  });

  afterAll(() => rmSync(cwd, { recursive: true }));

  function buswake(...words: readonly string[]) {
    return standingCommand(words, cwd);
  }

  it('writes a cabinet that checks clean, runs, and says what comes next', () => {
    const made = buswake('new', 'hall', '--sleds', '4 of 18 kW', '--trays', '3', '--feeder', '480 V');
    expect([made.status, made.stderr]).toEqual([0, '']);
    expect(made.stdout).toMatch(/ 2 feeders, 3 shelves \(108 kW\), 3 trays .+ 4 sleds \(72 kW peak\)/);
    expect(made.stdout).toMatch(
      /next .+check hall\/pulses.yaml, then .+run hall\/pulses.yaml, then .+size hall\/trays.yaml/,
    );
    expect(readFileSync(join(cwd, 'hall/cabinet.yaml'), 'utf8')).toMatch(/# Places along the cabinet bar/);
    expect(buswake('check', 'hall/start.yaml', '-q')).toEqual({ status: 0, stdout: '', stderr: '' });
    const run = buswake('run', 'hall/start.yaml', '--set', 'duration=1.5 s', '-q');
    // Three trays are too few for a start from idle: the verdict says so.
    expect([run.status, run.stdout]).toEqual([4, expect.stringMatching(/^FAIL {2}Ramp of the AC power/)]);
  });

  it('writes over nothing, and prints a document of what it wrote', () => {
    const made = buswake('new', 'other', '--sleds', '2', '--sections', '1', '--trays', 'none', '--json');
    const document = JSON.parse(made.stdout);
    expect(document).toMatchObject({
      folder: 'other',
      study: null,
      scenarios: ['pulses.yaml', 'start.yaml'],
    });
    expect(document.files).toContain('cabinet.yaml');
    mkdirSync(join(cwd, 'empty'));
    expect(buswake('new', 'empty', '--sleds', '2', '-q').status).toBe(0);
    const again = buswake('new', 'other', '--sleds', '2');
    expect([again.status, again.stderr]).toEqual([3, expect.stringContaining('a folder with files in it')]);
  });

  it('leaves nothing of what it could not write whole', () => {
    const typed = `ulimit -f 2; exec '${process.execPath}' '${script}' new cut --sleds 2`;
    const { status, stderr } = spawnSync('bash', ['-c', typed], { cwd, encoding: 'utf8' });
    expect([status, stderr]).toEqual([3, expect.stringContaining('cut\n  found     a file that grows')]);
    expect(readdirSync(cwd).filter((name) => name.startsWith('cut'))).toEqual([]);
  });

  it('asks at a terminal where no option answers, and says which one must be given elsewhere', async () => {
    expect(buswake('new', 'none').stderr).toContain('--sleds at least');
    const shown: string[] = [];
    const answers = await askedFor(questions, async (question) => {
      shown.push(question);
      return question.startsWith('sleds') ? ' 14 of 18 kW ' : '';
    });
    expect(answers).toEqual({ sleds: '14 of 18 kW' });
    expect(shown).toHaveLength(Object.keys(questions).length);
    expect(shown[1]).toBe('rectifier shelves, like 8 of 36 kW [one more than the load needs]: ');
  });
});
