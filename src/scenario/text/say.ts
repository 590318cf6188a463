import type { Sheet } from '../sheet.ts';
import { problemAt } from './document.ts';
import type { Origin } from './origin.ts';

/** Notes an error of the sheet. */
export function say(
  sheet: Sheet,
  origin: Origin | null,
  path: string,
  found: string,
  expected: string,
  mend: string,
): void {
  sheet.problems.push(problemAt(origin, path, found, expected, mend));
}
