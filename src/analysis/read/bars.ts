/** Link bars against each other, and how warm bars get. */

import { ratedRise_K } from '../../copper/rating.ts';
import { type Case, meanSquareOf, outSpans, worst } from '../record/case.ts';
import { overHeat } from '../record/long-enough.ts';
import { namedFew } from '../words/named-few.ts';
import { warmBars } from './copper.ts';
import { cannotArise, notShown, type Reading, unsettled } from './reading.ts';

/** RMS current of the closed link bars: highest minus lowest over their mean. */
export function readLinkBalance(c: Case): Reading {
  const links = c.scenario.bars.links.flatMap(({ id, closed }) => {
    const rms = meanSquareOf(c.result, `${id}.current_A`)?.rms;
    return rms === undefined || !closed || outSpans(c, id).length > 0 ? [] : [{ id, rms }];
  });
  const sum = links.reduce((total, { rms }) => total + rms, 0);
  if (links.length < 2 || !(sum > 0)) return cannotArise('fewer than two link bars carry current');
  const most = worst(links, (l) => l.rms)!;
  const least = worst(links, (l) => -l.rms)!;
  return {
    value: (most.rms - least.rms) / (sum / links.length),
    node: most.id,
    reason: `${most.rms.toFixed(0)} A RMS against ${least.rms.toFixed(0)} A in ${least.id}`,
  };
}

/** Rise of the warmest bar, steady or at its highest through events, over the 50 K that its rating stands for. */
export function readBarHeat(c: Case): Reading {
  const all = warmBars(c);
  const unrated = all.flatMap(({ owner, warm }) => (warm === null ? [owner] : []));
  const bars = all.flatMap(({ owner, values, warm }) =>
    warm === null ? [] : [{ owner, warm, rise: warm.value, thermal_s: values.thermal_time_s }],
  );
  const most = worst(bars, (b) => b.rise);
  const missing = `${namedFew(unrated, 3)} states no current that heats it by 50 K`;
  if (most === null) return unrated.length > 0 ? notShown(missing) : cannotArise('no bar carries current');
  const { rms, time_s } = most.warm;
  const how =
    time_s === null ? 'sustained heat it by' : 'have heated it at its warmest, not yet for good, by';
  const reason = `${rms.toFixed(0)} A RMS ${how} ${most.rise.toFixed(1)} K`;
  const reading = overHeat(c, most.thermal_s, {
    value: most.rise / ratedRise_K,
    node: most.owner,
    time_s,
    reason,
  });
  return unrated.length === 0 || reading.unsettled !== undefined
    ? reading
    : unsettled(reading, missing, 'worse');
}
