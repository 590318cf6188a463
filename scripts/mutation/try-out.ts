/** One changed source file against the tests that should notice, in a copy of the project. */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Site } from './sites.ts';

const copied = ['models', 'package.json', 'scenarios', 'scripts', 'src', 'tests', 'tsconfig.json', 'web'];

/** A fresh copy of what tests need, the kernel built; the packages are those of the project. */
function copyProject(to: string): void {
  rmSync(to, { recursive: true, force: true });
  mkdirSync(to, { recursive: true });
  for (const part of copied) cpSync(part, `${to}/${part}`, { recursive: true });
  symlinkSync(resolve('node_modules'), `${to}/node_modules`);
  spawnSync('node', ['--import', 'tsx', 'scripts/build.ts'], { cwd: to, stdio: 'inherit' });
}

/** Tests that take longer are held up by the change: they notice it too. */
const longest_ms = 300_000;

/** Whether these tests pass in the copy. */
async function pass(copy: string, tests: readonly string[]): Promise<boolean> {
  const args = ['vitest', 'run', '--config', 'tests/vitest.config.ts', '--bail=1', ...tests];
  const run = spawn('npx', args, { cwd: copy, stdio: 'ignore', detached: true });
  // A loop without an end runs in a grandchild: the whole group goes.
  const late = setTimeout(() => process.kill(-run.pid!, 'SIGKILL'), longest_ms);
  const [code] = await once(run, 'exit');
  clearTimeout(late);
  return code === 0;
}

/** Stages of tests against changes in a copy: later ones run only where earlier ones pass. */
export class TryOut {
  private readonly sound = new Set<readonly string[]>();
  private readonly copy: string;
  private readonly stages: readonly (readonly string[])[];

  /** `builds`: whether every change is built anew, as the compiled kernel has it too. */
  constructor(copy: string, stages: readonly (readonly string[])[], builds: boolean) {
    this.copy = copy;
    this.stages = stages;
    copyProject(copy);
    if (!builds) writeFileSync(`${copy}/tests/build-first.ts`, 'export const setup = (): void => {};\n');
  }

  /** Whether any test fails with the change in place. */
  async notices(path: string, site: Site): Promise<boolean> {
    const text = readFileSync(`${this.copy}/${path}`, 'utf8');
    const changed = text.slice(0, site.from) + site.becomes + text.slice(site.to);
    for (const tests of this.stages) {
      await this.passAsTheyStand(tests);
      writeFileSync(`${this.copy}/${path}`, changed);
      const passed = await pass(this.copy, tests);
      writeFileSync(`${this.copy}/${path}`, text);
      if (!passed) return true;
    }
    return false;
  }

  /** Tests that fail without a change would notice every one. */
  private async passAsTheyStand(tests: readonly string[]): Promise<void> {
    if (this.sound.has(tests)) return;
    if (!(await pass(this.copy, tests))) throw new Error(`these fail as they stand: ${tests.join(' ')}`);
    this.sound.add(tests);
  }
}
