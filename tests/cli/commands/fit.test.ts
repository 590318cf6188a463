/** The real process: a fit is kept, goes on, and has a page. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { onOneThread } from '../one-thread.ts';
import { standingCommand } from '../standing/standing.ts';

function buswake(...words: readonly string[]) {
  const run = standingCommand(onOneThread(words));
  return { code: run.status, out: run.stdout, err: run.stderr };
}

describe('buswake fit', () => {
  it('goes on where half of its runs are kept, to the same document, and has a page', () => {
    const dir = join(mkdtempSync(join(tmpdir(), 'fit-')), 'kept');
    const words = [
      ...['fit', 'bench-step', '--measured', 'scenarios/measured/bench-step.csv', '--measured-at', '0 s'],
      ...['--adjust', 'banks.esr = 0.2 mΩ to 2 mΩ', '--out', dir, '--json'],
    ];
    const { code, out } = buswake(...words);
    expect(code).toBe(0);
    const store = join(dir, 'trials.jsonl');
    const whole = readFileSync(store, 'utf8');
    const lines = whole.split('\n');
    writeFileSync(store, `${lines.slice(0, lines.length >> 1).join('\n')}\n`);
    expect(buswake(...words, '--resume').out).toBe(out);
    expect(readFileSync(store, 'utf8')).toBe(whole);
    expect(readFileSync(join(dir, 'study.md'), 'utf8')).toContain('| banks.esr |');
    expect(buswake('view', dir).code).toBe(0);
    const page = readFileSync(join(dir, 'page.html'), 'utf8');
    expect(page).toContain('id="file-engine.js"');
    expect(page).toMatch(/id="file-inputs\/\d+-bench-step\.csv"/);
  });
});
