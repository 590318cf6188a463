/** A study in parts on a queue of task-spooler (`scripts/parts-on-queue.sh`), skipped where there is none. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'queue-'));
afterAll(() => rmSync(folder, { recursive: true }));

const script = 'scripts/parts-on-queue.sh';
const has = spawnSync('sh', ['-c', 'command -v tsp']).status === 0;

describe('scripts/parts-on-queue.sh', () => {
  it.skipIf(!has)('runs a spread in parts and ends with the bytes of the whole', { timeout: 300_000 }, () => {
    const study = [
      ...['spread', 'bench-step', '--set', 'duration=0.2 s', '--samples', '3'],
      ...['--tolerance', 'trays.esr=normal by 10 %'],
    ];
    const out = join(folder, 'queued');
    const queued = spawnSync(script, ['2', out, ...study], { encoding: 'utf8' });
    expect(queued.stderr).toContain('part 1 of 2 done\npart 2 of 2 done\n');
    const whole = join(folder, 'whole');
    const direct = spawnSync('node', ['scripts/buswake.mjs', ...study, '--out', whole], { encoding: 'utf8' });
    expect(queued.status).toBe(direct.status);
    const files = ['study.json', 'samples.csv', 'trials.jsonl'] as const;
    for (const file of files)
      expect(readFileSync(join(out, file)).equals(readFileSync(join(whole, file)))).toBe(true);
    // A part that is refused stops it, with what the part said.
    const wrong = spawnSync(script, ['2', join(folder, 'no'), ...study, '--set', 'trays.esrr=1 mΩ'], {
      encoding: 'utf8',
    });
    expect(wrong.status).toBe(3);
    expect(wrong.stderr).toMatch(/part 1 of 2 ended with 3:[\s\S]*trays\.esrr/);
    expect(existsSync(join(folder, 'no'))).toBe(false);
  });

  it('refuses a number of parts that is none', () => {
    const { status, stderr } = spawnSync(script, ['two', 'out/no', 'spread'], { encoding: 'utf8' });
    expect([status, stderr]).toEqual([2, 'PARTS: found two, expected a whole number above 0\n']);
  });
});
