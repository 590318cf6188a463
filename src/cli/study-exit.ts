/** What a study ends with: its own answer first, then what kept it from one. */
import type { States } from '../studies/states.ts';
import { type ExitCode, exit } from './exit.ts';

/** `answered`: a search found its answer, every cell of a matrix passes. */
export function studyExit(
  { failed, collapsed, numerical, inconclusive }: States,
  answered: boolean,
): ExitCode {
  if (answered) return exit.passed;
  if (failed + collapsed > 0) return exit.failed;
  if (numerical > 0) return exit.numerical;
  return inconclusive > 0 ? exit.inconclusive : exit.failed;
}
