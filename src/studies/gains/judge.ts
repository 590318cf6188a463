import type { End } from '../end.ts';
import type { GainsReport } from './report.ts';

/** A point that was not run in time is what the map says of it; one that was is what that run says. */
export function gainsEnd({
  recommended,
  confirmation,
}: Pick<GainsReport, 'recommended' | 'confirmation'>): End {
  if (recommended === null) return 'failed';
  switch (confirmation?.letter) {
    case 'F':
    case 'X':
      return 'failed';
    case 'E':
      return 'numerical';
    case 'N':
      return 'inconclusive';
    default:
      return 'passed';
  }
}
