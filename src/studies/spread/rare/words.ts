/** A small probability of failing in words. */
import { counted } from '../../../base/counted.ts';
import { formatPercent } from '../../../base/quantity.ts';
import type { PlainRow } from '../../tables.ts';
import type { RareReport } from './search.ts';

/** The small probability of failing in a sentence. */
export function rareSentence({
  probability_ratio,
  interval_ratio,
  by,
  levels,
  runs,
  numerical,
  regions,
}: RareReport): string {
  const how = `${counted(runs, 'run')}, ${levels === 1 ? 'one level' : `${levels} levels`}`;
  if (probability_ratio === null || interval_ratio === null)
    return `None of ${how}, fails: how seldom it does is not known.`;
  const [low, high] = interval_ratio.map((end) => shareText(end));
  const where = counted(regions.length, 'region');
  const odd = numerical === 0 ? '' : ` ${counted(numerical, 'run')} whose numbers failed count as failing.`;
  return `It fails ${shareText(probability_ratio)} of the time, between ${low} and ${high} (meant to hold 95 times of 100), by ${by === 'draws' ? `draws about ${where}` : `levels, with ${where}`} of what fails; ${how}.${odd}`;
}

/** A small share, `1.2e-3`. */
function shareText(ratio: number): string {
  return ratio >= 0.01 ? formatPercent(ratio, 2) : ratio.toExponential(1);
}

export const regionHead = [
  'share of what fails',
  'distance',
  'standard deviations of',
  'its middle',
] as const;

export function regionRows({ regions }: RareReport): PlainRow[] {
  return regions.map(({ share_ratio, distance, moves, replay }) => [
    formatPercent(share_ratio, 2),
    Number(distance.toPrecision(3)),
    moves
      .slice(0, 4)
      .map(({ path, deviations }) => `${path} ${deviations.toFixed(1)}`)
      .join(', '),
    replay,
  ]);
}
