import type { FitReport, FitResult } from './fit-report.ts';

type Judged = Pick<FitReport, 'misfit' | 'clock' | 'result'>;

/** What a fit came to, in a word. */
export function fitWord(report: Judged): string {
  if (!isNoise(report)) return 'misfit';
  return isBounded(report) ? 'values bounded' : 'not all values bounded';
}

/** What is left is noise of every channel, and shows no clock that is off. */
export function isNoise({ misfit, clock }: Pick<FitReport, 'misfit' | 'clock'>): boolean {
  return misfit.length === 0 && !clock.is_off;
}

/** What is left is noise, and the measurement bounds every value on both sides. */
export function isBounded(report: Judged): boolean {
  return isNoise(report) && Object.values(report.result).every((one) => one.interval !== null && !isCut(one));
}

/** An end of the interval is that of the range: no bound that the measurement gives. */
export function isCut({ interval, range: [low, high] }: Pick<FitResult, 'interval' | 'range'>): boolean {
  const near = 1e-9 * (high - low);
  return interval !== null && (interval[0] <= low + near || interval[1] >= high - near);
}
