/**
 * What a bench has found, a line each, beside what the last one on this machine found. All numbers of a bench are kept as
 * one line of `out/bench.jsonl`, with the commit it was of.
 */
import { spawnSync } from 'node:child_process';
import { appendFileSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { dirname } from 'node:path';

const kept = 'out/bench.jsonl';

interface Kept {
  readonly at: string;
  readonly commit: string;
  readonly rows: Readonly<Record<string, number>>;
}

/** A change of less than this share is what a machine does by itself. */
const noise_ratio = 0.03;

export class BenchReport {
  private readonly last: Kept | null;
  private readonly rows: Record<string, number> = {};
  private of = '';

  constructor() {
    const lines = existsSync(kept) ? readFileSync(kept, 'utf8').trim().split('\n') : [];
    this.last = lines.length > 0 && lines.at(-1) !== '' ? (JSON.parse(lines.at(-1)!) as Kept) : null;
    if (this.last !== null) console.log(`in brackets: ${this.last.at}, commit ${this.last.commit}\n`);
  }

  /** One number. */
  row(what: string, value: number, digits: number): void {
    this.of = what;
    this.tell(what, what, value, digits);
  }

  /** A number that belongs to the row before. */
  part(what: string, value: number, digits: number): void {
    this.tell(`${this.of}: ${what}`, `  ${what}`, value, digits);
  }

  private tell(name: string, words: string, value: number, digits: number): void {
    const before = this.last?.rows[name];
    const isChanged = before !== undefined && Math.abs(value - before) > noise_ratio * Math.abs(before);
    const beside = isChanged ? `  (${before.toFixed(digits)})` : '';
    console.log(words.padEnd(80), `${value.toFixed(digits)}${beside}`);
    this.rows[name] = value;
  }

  /** Keeps all rows. */
  keep(): void {
    const { stdout } = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' });
    const line: Kept = { at: new Date().toISOString().slice(0, 16), commit: stdout.trim(), rows: this.rows };
    mkdirSync(dirname(kept), { recursive: true });
    appendFileSync(kept, `${JSON.stringify(line)}\n`);
  }
}
