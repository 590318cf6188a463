/** How long the capacitors on the bus last. */

import { capacitorLife_s } from '../../slow/life.ts';
import { bankSpot_degC } from '../../slow/loss-heat.ts';
import { type Case, channelsOf, meanSquareOf, worst } from '../record/case.ts';
import { overYears } from './over-years.ts';
import { cannotArise, type Reading } from './reading.ts';

/** Life like this without end. */
export function readBankLife(c: Case): Reading {
  const lives = channelsOf(c.result, 'bank-current').flatMap(({ id, owner }) => {
    const bank = c.scenario.banks.find((b) => b.id === owner);
    const rms = meanSquareOf(c.result, id)?.rms;
    if (bank === undefined || rms === undefined) return [];
    const { rated_life_s, rated_life_temperature_degC } = bank.values;
    const hot_degC = bankSpot_degC(bank.values, rms);
    if (hot_degC === null || !(rated_life_s > 0)) return [];
    return [
      { id: owner, hot_degC, life_s: capacitorLife_s(rated_life_s, rated_life_temperature_degC, hot_degC) },
    ];
  });
  const least = worst(lives, (l) => -l.life_s);
  if (least === null) return cannotArise('no bank states the life and the cooling of its capacitors');
  const rule = `at ${least.hot_degC.toFixed(0)} °C, halved per 10 K: common practice`;
  return overYears(least.id, least.life_s, rule);
}
