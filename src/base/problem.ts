/**
 * Errors as data. A problem says where, what was found, what was expected and how to mend it; one formatter
 * makes text of it. Bad input throws `BadInput` with every problem found, never a bare string.
 */

export interface Problem {
  readonly severity: 'error' | 'warning';
  /** File, line and column where known (1-based). */
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  /** Path of the value, for example `trays.T4.capacitance`. */
  readonly path?: string;
  /** Simulated time at which it happened, where a run had begun. */
  readonly at_s?: number;
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** Thrown once, with all problems, when what the user gave cannot be run. Exit code 3. */
export class BadInput extends Error {
  readonly problems: readonly Problem[];

  constructor(problems: readonly Problem[]) {
    super(formatProblems(problems));
    this.name = 'BadInput';
    this.problems = problems;
  }
}

/** One block per problem: place and path, then found, expected, mend. */
export function formatProblem(p: Problem): string {
  const place = [p.file, p.line, p.column].filter((part) => part !== undefined).join(':');
  const head = [place, p.path].filter((part) => part !== undefined && part !== '').join('  ');
  const mark = p.severity === 'warning' ? 'warning  ' : '';
  return [
    `${mark}${head === '' ? 'input' : head}`,
    `  found     ${p.found}`,
    `  expected  ${p.expected}`,
    `  mend      ${p.mend}`,
  ].join('\n');
}

/** All problems in the order given, then the count; the last line is the one that sums up. */
export function formatProblems(problems: readonly Problem[]): string {
  const errors = problems.filter((p) => p.severity === 'error').length;
  const files = new Set(problems.filter((p) => p.line !== undefined).map((p) => p.file)).size;
  const where = files === 0 ? '' : ` in ${files} ${files === 1 ? 'file' : 'files'}`;
  const ending = problems.some((p) => p.at_s !== undefined)
    ? 'The run ended there; nothing was kept.'
    : 'Nothing was run.';
  const closing =
    errors === 0 ? '' : `\n${errors} ${errors === 1 ? 'problem' : 'problems'}${where}. ${ending}`;
  return `${problems.map(formatProblem).join('\n')}${closing}`;
}
