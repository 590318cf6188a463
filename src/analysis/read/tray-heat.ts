/** How hot a tray's cells get, and how long they last like this. */
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import { hotSpot_degC, trayHeat } from '../../slow/loss-heat.ts';
import { type Case, worst } from '../record/case.ts';
import { overHeat } from '../record/long-enough.ts';
import { wornPerSecond } from '../record/tray-wear.ts';
import { warmest } from './heat.ts';
import { overYears } from './over-years.ts';
import { cannotArise, type Reading } from './reading.ts';

interface Hot {
  readonly id: string;
  readonly values: TrayValues;
  readonly hot_degC: number;
}

function hotSpots(c: Case): Hot[] {
  return c.scenario.trays.flatMap(({ id, values }) => {
    if (hotSpot_degC(values, 0) === null) return [];
    const warm = warmest(
      c,
      `${id}.capacitor_current_A`,
      (rms) => hotSpot_degC(values, rms)!,
      (rms) => trayHeat(values, rms),
    );
    return warm === null ? [] : [{ id, values, hot_degC: warm.value }];
  });
}

/** Steady temperature of the hottest cells, if the load goes on as in the window. */
export function readHotSpot(c: Case): Reading {
  const most = worst(hotSpots(c), (t) => t.hot_degC);
  if (most === null) return cannotArise('no tray states the thermal resistance of its cells');
  const { coolant_temperature_degC: coolant, thermal_time_s } = most.values;
  const reason = `coolant at ${coolant} °C, ${(most.hot_degC - coolant).toFixed(1)} K above it if the load continues`;
  return overHeat(c, thermal_time_s, { value: most.hot_degC, nominal: coolant, node: most.id, reason });
}

/** Life like this without end. */
export function readTrayLife(c: Case): Reading {
  const lives = hotSpots(c).flatMap(({ id, values, hot_degC }) => {
    const worn_per_s = wornPerSecond(c, id, values, c.result.window, hot_degC);
    return worn_per_s > 0 ? [{ id, life_s: 1 / worn_per_s }] : [];
  });
  const least = worst(lives, (l) => -l.life_s);
  if (least === null) return cannotArise('no tray states the life of its cells');
  return overYears(least.id, least.life_s, 'halved per 10 K and by 1.3 per 0.1 V a cell: common practice');
}
