/** How long the capacitors on the bus last. */
import { type Case, channelsOf, meanSquareOf, worst } from './case.ts';
import { capacitorLife_s } from './heat.ts';
import { absent, type Reading } from './reading.ts';

const year_s = 8766 * 3600;

/** Never judged from a short window: years of heat are not in it. What it would give is told. */
export function readBankLife(c: Case): Reading {
  const lives = channelsOf(c.result, 'bank-current').flatMap(({ id, owner }) => {
    const bank = c.scenario.banks.find((b) => b.id === owner);
    const rms = meanSquareOf(c.result, id)?.rms;
    if (bank === undefined || rms === undefined) return [];
    const { thermal_resistance_K_per_W, rated_life_s, rated_life_temperature_degC } = bank.values;
    if (!(thermal_resistance_K_per_W > 0) || !(rated_life_s > 0)) return [];
    const hot_degC = bank.values.ambient_degC + thermal_resistance_K_per_W * bank.values.esr_ohm * rms * rms;
    return [
      { id: owner, hot_degC, life_s: capacitorLife_s(rated_life_s, rated_life_temperature_degC, hot_degC) },
    ];
  });
  const least = worst(lives, (l) => -l.life_s);
  if (least === null) return absent('no bank states the life and the cooling of its capacitors');
  const years = Number((least.life_s / year_s).toPrecision(2));
  return absent(
    `needs years of load, air and age; like this window without end ${least.id} would last about ${years} years ` +
      `at ${least.hot_degC.toFixed(0)} °C (halved per 10 K: common practice)`,
  );
}
