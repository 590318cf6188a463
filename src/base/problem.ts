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

/** Problems told at a time: nobody mends more before looking again. */
const mostTold = 200;

/** Characters told of what was found: beyond them it is no word or value. */
const longestFound = 300;

/** Characters told of what is expected, a list to choose from mostly, and of the way out. */
const longestAdvice = 3000;

/** Thrown once, with all problems, when what the user gave cannot be run. Exit code 3. */
export class BadInput extends Error {
  readonly problems: readonly Problem[];

  /** `ending`: what became of what was asked for, where that is not plain from the problems. */
  constructor(all: readonly Problem[], ending: string = endingOf(all)) {
    const problems = [...all.slice(0, mostTold).map(told), ...untold(all.length - mostTold)];
    super(formatProblems(problems, all, ending));
    this.name = 'BadInput';
    this.problems = problems;
  }
}

function told(problem: Problem): Problem {
  const { found, expected, mend, path } = problem;
  return {
    ...problem,
    found: cut(found, longestFound),
    expected: cut(expected, longestAdvice),
    mend: cut(mend, longestAdvice),
    ...(path === undefined ? {} : { path: cut(path, longestFound) }),
  };
}

function cut(text: string, longest: number): string {
  return text.length <= longest ? text : `${text.slice(0, longest)} … (${text.length} characters in all)`;
}

function untold(count: number): Problem[] {
  if (count <= 0) return [];
  return [
    {
      severity: 'error',
      found: `${count} more of the kind`,
      expected: 'none',
      mend: 'mend those above and look again',
    },
  ];
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

/** Problems in the order given, then the count of all; the last line is the one that sums up. */
export function formatProblems(
  problems: readonly Problem[],
  all: readonly Problem[] = problems,
  ending: string = endingOf(all),
): string {
  const errors = all.filter((p) => p.severity === 'error').length;
  const files = new Set(all.filter((p) => p.line !== undefined).map((p) => p.file)).size;
  const where = files === 0 ? '' : ` in ${files} ${files === 1 ? 'file' : 'files'}`;
  const closing =
    errors === 0 ? '' : `\n${errors} ${errors === 1 ? 'problem' : 'problems'}${where}. ${ending}`;
  return `${problems.map(formatProblem).join('\n')}${closing}`;
}

function endingOf(all: readonly Problem[]): string {
  return all.some((p) => p.at_s !== undefined)
    ? 'The run ended there; nothing was kept.'
    : 'Nothing was run.';
}
