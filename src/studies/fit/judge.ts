import type { FitReport, FitResult } from './fit-report.ts';

type Judged = Pick<FitReport, 'misfit' | 'result'>;

/** What a fit came to, in a word. */
export function fitWord(report: Judged): string {
  if (report.misfit.length > 0) return 'misfit';
  return isBounded(report) ? 'values bounded' : 'not all values bounded';
}

/** What is left is noise, and the measurement bounds every value on both sides. */
export function isBounded({ misfit, result }: Judged): boolean {
  return misfit.length === 0 && Object.values(result).every((one) => one.interval !== null && !isCut(one));
}

/** An end of the interval is that of the range: no bound that the measurement gives. */
export function isCut({ interval, range: [low, high] }: Pick<FitResult, 'interval' | 'range'>): boolean {
  const near = 1e-9 * (high - low);
  return interval !== null && (interval[0] <= low + near || interval[1] >= high - near);
}
