/**
 * Commands in a process that stands and has run others: most of what a command costs is loading and compiling. Tests of signals, pipes,
 * terminals and environments start a process of their own.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface Done {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

const root = fileURLToPath(new URL('../../..', import.meta.url));

class Standing {
  private readonly folder = mkdtempSync(join(tmpdir(), 'standing-'));
  private readonly child: ChildProcess;
  private readonly orders: number;
  private readonly answers: number;
  private readonly buffer = Buffer.alloc(1 << 20);

  constructor() {
    const pipes = ['orders', 'answers'].map((name) => join(this.folder, name));
    execFileSync('mkfifo', pipes);
    const server = fileURLToPath(new URL('server.mjs', import.meta.url));
    this.child = spawn(process.execPath, [server, ...pipes], { stdio: ['ignore', 'ignore', 'inherit'] });
    this.child.unref();
    this.orders = openSync(pipes[0]!, 'w');
    this.answers = openSync(pipes[1]!, 'r');
    process.once('exit', () => {
      this.child.kill();
      rmSync(this.folder, { recursive: true, force: true });
    });
  }

  run(words: readonly string[], cwd: string): Done {
    writeSync(this.orders, `${JSON.stringify({ words, cwd })}\n`);
    const chunks: Buffer[] = [];
    for (;;) {
      const read = readSync(this.answers, this.buffer);
      if (read === 0) throw new Error(`the standing process ended at: ${words.join(' ')}`);
      chunks.push(Buffer.from(this.buffer.subarray(0, read)));
      if (chunks.at(-1)!.at(-1) === 0x0a) return JSON.parse(Buffer.concat(chunks).toString('utf8')) as Done;
    }
  }
}

let standing: Standing | null = null;

/** Runs `buswake` with these words in a folder, the project's by default. */
export function standingCommand(words: readonly string[], cwd = root): Done {
  standing ??= new Standing();
  return standing.run(words, cwd);
}
