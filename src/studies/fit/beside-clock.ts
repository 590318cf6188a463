/**
 * A search, and the clock that it is held against. Where readings show how far the clock is off within what is taken for
 * possible, a fit that leaves it in bends its values to follow: a droop ran to the end of its range behind 0.05 %, and a
 * capacitance beyond its interval with it. The likely clock is taken out, and the search goes on from there.
 */
import { type BestRun, type BestRunCase, bestRun } from './best-run.ts';
import type { FirstPlace } from './points.ts';

/** What the likely clock moves by less than this, of the half width that noise leaves, is as good as right. */
const leastMove = 0.1;
const mostRounds = 3;

export async function besideClock(
  of: BestRunCase,
  start: readonly number[],
  place: FirstPlace,
): Promise<BestRun> {
  let [best, taken_ratio] = [await bestRun(of, start, place, 0), 0];
  for (let round = 0; round < mostRounds && isMovedByClock(best); round++) {
    taken_ratio += best.share.untaken_ratio;
    // On the clock of the run, faster stamps are as much shorter.
    const rate_ratio = (1 + place.rate_ratio) / (1 + taken_ratio) - 1;
    best = await bestRun(of, best.found.values, { ...place, rate_ratio }, taken_ratio);
  }
  return best;
}

/**
 * A usual clock is a misfit itself (a sine of 160 Hz, half a second long: 8 times the noise), so that misfits are judged
 * once it is out. One further off than possible is a fault, and nothing follows it.
 */
function isMovedByClock({ share, sharp }: BestRun): boolean {
  const { clock, moves, untaken_ratio } = share;
  if (clock.is_off) return false;
  return sharp.halfWidths.some(
    (half, j) => half !== null && Math.abs(moves[j]! * untaken_ratio) > leastMove * half,
  );
}
