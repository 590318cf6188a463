/** How much of the load that was asked for the sleds drew: a cabinet whose sleds are dark has an easy life. */

import { meanOf } from '../signal/detrend.ts';
import type { Case } from './case.ts';

/** Energy drawn over energy asked for in the judged window; null where nothing was asked for. */
export function servedRatio({ demand, scenario, result }: Case): number | null {
  const drawn = result.means.columns.get('total.load_W');
  if (drawn === undefined || drawn.length === 0) return null;
  const { from_s, width_s } = result.means;
  const weights = new Float64Array(demand.profileCount);
  scenario.sleds.forEach(({ share_ratio }, k) => {
    weights[demand.profileOf[k]!]! += share_ratio;
  });
  const powers = new Float64Array(demand.profileCount);
  let asked_W = 0;
  for (let j = 0; j < drawn.length; j++) {
    demand.at(powers, Math.round((from_s + (j + 0.5) * width_s) / scenario.tick_s));
    for (let p = 0; p < powers.length; p++) asked_W += (powers[p]! * weights[p]!) / drawn.length;
  }
  return asked_W > 0 ? meanOf(drawn) / asked_W : null;
}
