/** What a sizing comes to: its answer, the word for it, how it ends. */
import { type End, endOf } from '../end.ts';
import type { SizeReport } from './report.ts';

/** How the answer stands in one word: no condition is hidden behind a find. */
export function sizeWord(report: SizeReport): 'FOUND' | 'FOUND, WITH CONDITIONS' | 'NONE' | 'INCONCLUSIVE' {
  const answer = answerOf(report);
  if (answer === undefined) return isUndecided(report) ? 'INCONCLUSIVE' : 'NONE';
  return answer.letter === 'P' ? 'FOUND' : 'FOUND, WITH CONDITIONS';
}

/** Found, and nothing is open. */
export function isClean(report: SizeReport): boolean {
  return answerOf(report)?.letter === 'P';
}

/** No limit is exceeded in a situation whose tightest headroom this is; on a limit it is kept. */
export function isKept(tightest_ratio: number): boolean {
  return tightest_ratio >= 0;
}

/** Nothing passes and nothing failed: no candidate came to a verdict. */
export function isUndecided({ result, states: { failed, collapsed } }: SizeReport): boolean {
  return result === null && failed + collapsed === 0;
}

/** The candidate that is the answer. */
export function answerOf({ result, candidates }: SizeReport): SizeReport['candidates'][number] | undefined {
  if (result === null) return undefined;
  return candidates.find(({ values }) =>
    Object.entries(result).every(([path, value]) => values[path] === value),
  );
}

/** It passes where some candidate does, in every situation. */
export function sizeEnd({ states, result }: SizeReport): End {
  return endOf(states, result !== null);
}
