/** C that is compiled and run: every warning is an error, products and sums stay apart. */
import { execFileSync, spawnSync } from 'node:child_process';
import { join } from 'node:path';

const compiler = process.env.CC ?? 'cc';

/** As the folder's own README says it. */
const flags = ['-std=c99', '-O2', '-ffp-contract=off', '-Wall', '-Wextra', '-Werror', '-pedantic'];

/** Compiles files of a folder to a program in it. Throws what the compiler says. */
export function compile(folder: string, program: string, sources: readonly string[]): void {
  execFileSync(compiler, [...flags, '-o', program, ...sources], {
    cwd: folder,
    encoding: 'utf8',
    stdio: 'pipe',
  });
}

/** Runs a compiled program over an input. */
export function runProgram(
  folder: string,
  program: string,
  input = '',
): { readonly out: string; readonly code: number } {
  const { stdout, stderr, status } = spawnSync(join(folder, program), {
    cwd: folder,
    input,
    encoding: 'utf8',
  });
  return { out: stdout + stderr, code: status ?? -1 };
}
