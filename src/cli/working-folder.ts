/** The folder that the command was typed in. Throws BadInput where it is gone meanwhile. */
import { BadInput } from '../base/problem.ts';

export function workingFolder(): string {
  try {
    return process.cwd();
  } catch {
    throw new BadInput([
      {
        severity: 'error',
        path: 'working folder',
        found: 'one that is no longer there',
        expected: 'a folder, from which names of files count',
        mend: 'go to a folder that exists: cd',
      },
    ]);
  }
}
