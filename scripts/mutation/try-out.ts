/** One changed source file against the tests that should notice, in a copy of the project. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Site } from './sites.ts';

const copied = [
  'dist',
  'models',
  'package.json',
  'scenarios',
  'scripts',
  'src',
  'tests',
  'tsconfig.json',
  'web',
];

/** Tests that take longer are held up by the change: they notice it too. */
const longest_ms = 300_000;

export class TryOut {
  private readonly copy: string;
  private readonly tests: readonly string[];

  /** `copy`: the folder to work in, emptied first. `builds`: whether every change is built anew. */
  constructor(copy: string, tests: readonly string[], builds: boolean) {
    this.copy = copy;
    this.tests = tests;
    spawnSync('node', ['--import', 'tsx', 'scripts/build.ts'], { stdio: 'inherit' });
    rmSync(copy, { recursive: true, force: true });
    mkdirSync(copy, { recursive: true });
    for (const part of copied) cpSync(part, `${copy}/${part}`, { recursive: true });
    symlinkSync(resolve('node_modules'), `${copy}/node_modules`);
    if (!builds) writeFileSync(`${copy}/tests/build-first.ts`, 'export const setup = (): void => {};\n');
  }

  /** Tests that fail without a change would notice every one. */
  async passAsTheyStand(): Promise<void> {
    if (!(await this.pass())) throw new Error('the tests fail as they stand');
  }

  /** Whether any test fails with the change in place. */
  async notices(path: string, site: Site): Promise<boolean> {
    const text = readFileSync(`${this.copy}/${path}`, 'utf8');
    writeFileSync(`${this.copy}/${path}`, text.slice(0, site.from) + site.becomes + text.slice(site.to));
    const passed = await this.pass();
    writeFileSync(`${this.copy}/${path}`, text);
    return !passed;
  }

  private async pass(): Promise<boolean> {
    const vitest = 'node_modules/vitest/vitest.mjs';
    const args = [vitest, 'run', '--config', 'tests/vitest.config.ts', '--bail=1', ...this.tests];
    const run = spawn('node', args, { cwd: this.copy, stdio: 'ignore', detached: true });
    // A loop without an end runs in a child of its own: the whole group goes.
    const late = setTimeout(() => process.kill(-run.pid!, 'SIGKILL'), longest_ms);
    const [code] = await once(run, 'exit');
    clearTimeout(late);
    return code === 0;
  }
}
