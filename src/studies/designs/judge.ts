/** What a study of designs comes to: the word for it, how it ends. */
import { type End, endOf } from '../end.ts';
import type { DesignsReport } from './report.ts';

/** How the answer stands: no condition is hidden behind a find. */
export function designsWord(
  report: DesignsReport,
): 'FOUND' | 'FOUND, WITH CONDITIONS' | 'NONE' | 'INCONCLUSIVE' {
  const { front } = report;
  if (front.length === 0) return isUndecided(report) ? 'INCONCLUSIVE' : 'NONE';
  return front.every(({ run }) => run.letter === 'P') ? 'FOUND' : 'FOUND, WITH CONDITIONS';
}

/** Found, and nothing is open at any design of the front. */
export function isCleanFront(report: DesignsReport): boolean {
  return designsWord(report) === 'FOUND';
}

/** It passes where something stands on the front. */
export function designsEnd({ states, front }: DesignsReport): End {
  return endOf(states, front.length > 0);
}

/** Nothing passes and nothing failed: no design came to a verdict. */
export function isUndecided({ front, states: { failed, collapsed } }: DesignsReport): boolean {
  return front.length === 0 && failed + collapsed === 0;
}
