/** Exit codes, and what is printed when a command cannot go on. */
import { CommanderError } from 'commander';
import { BadInput, type Problem } from '../base/problem.ts';
import { usageProblem } from './usage-problem.ts';

export const exit = {
  passed: 0,
  bug: 1,
  commandLine: 2,
  badInput: 3,
  /** Verdict `fail`, a search without solution, or a kept run that differs when it is run again. */
  failed: 4,
  /** `non_finite` or `audit_open`. */
  numerical: 5,
  /** No limit could be judged. */
  inconclusive: 6,
  stopped: 130,
} as const;

/** For the help: what a script may rely on. */
export const exitCodesText = `
Exit codes:
  ${exit.passed}    passed, with or without conditions; for other commands: done
  ${exit.bug}    an internal error
  ${exit.commandLine}    the command line is malformed
  ${exit.badInput}    bad input: files, values, paths, a recording that is not clear
  ${exit.failed}    the verdict is fail, a search found no solution, or a kept run differs
  ${exit.numerical}    numerical failure: not finite, or the energy audit is open, whatever else happened
  ${exit.inconclusive}    nothing could be judged
  ${exit.stopped}  stopped
`;

export type ExitCode = (typeof exit)[keyof typeof exit];

/** What the user asked of error output; read from the words, as the command line itself may be malformed. */
export interface ErrorStyle {
  readonly json: boolean;
  readonly debug: boolean;
}

export function errorStyle(words: readonly string[]): ErrorStyle {
  return { json: words.includes('--json'), debug: words.includes('--debug') };
}

/** Prints an error where it belongs and gives its exit code. Stack traces only for bugs, or with --debug. */
export function reportError(error: unknown, style: ErrorStyle): ExitCode {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return exit.passed;
    // Its text stands on stderr already.
    printDocument([usageProblem(error)], style);
    return exit.commandLine;
  }
  if (error instanceof BadInput) {
    printDocument(error.problems, style);
    process.stderr.write(`${style.debug ? (error.stack ?? error.message) : error.message}\n`);
    return exit.badInput;
  }
  const [message, text] =
    error instanceof Error ? [error.message, error.stack ?? error.message] : [String(error), String(error)];
  const found = `an internal error: ${message}`;
  const mend = 'report it with the command line and these files: it is none of them';
  printDocument([{ severity: 'error', found, expected: 'none', mend }], style);
  process.stderr.write(`${text}\nThis is an internal error of buswake, not one of your files.\n`);
  return exit.bug;
}

/** With --json whatever cannot go on is one document on stdout as well. */
function printDocument(problems: readonly Problem[], { json }: ErrorStyle): void {
  if (json) process.stdout.write(`${JSON.stringify({ schema_version: 1, problems }, null, 2)}\n`);
}
