/** How hot a tray's cells get, and how long they last like this. */
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import { type Case, channelsOf, worst } from '../record/case.ts';
import { harderSquare } from '../record/going-on.ts';
import { overHeat } from '../record/long-enough.ts';
import { cellLife_s, hotSpot_degC } from './heat.ts';
import { overYears } from './over-years.ts';
import { cannotArise, type Reading } from './reading.ts';

interface Hot {
  readonly id: string;
  readonly values: TrayValues;
  readonly hot_degC: number;
}

function hotSpots(c: Case): Hot[] {
  return c.scenario.trays.flatMap(({ id, values }) => {
    const rms = harderSquare(c, `${id}.capacitor_current_A`)?.rms;
    const hot_degC = rms === undefined ? null : hotSpot_degC(values, rms);
    return hot_degC === null ? [] : [{ id, values, hot_degC }];
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
    if (!(values.rated_life_s > 0) || !(values.cell_count_count > 0)) return [];
    const rated = {
      life_s: values.rated_life_s,
      temperature_degC: values.rated_life_temperature_degC,
      voltage_V: values.rated_voltage_V / values.cell_count_count,
    };
    const at = cellLife_s(rated, hot_degC);
    const life_s = lifeOver(c, id, (v) => at(v / values.cell_count_count));
    return life_s === null ? [] : [{ id, life_s }];
  });
  const least = worst(lives, (l) => -l.life_s);
  if (least === null) return cannotArise('no tray states the life of its cells');
  return overYears(least.id, least.life_s, 'halved per 10 K and by 1.3 per 0.1 V a cell: common practice');
}

/** Damage adds: the window's length over ∫ dt/L(v), v the highest of each recorded bucket. */
function lifeOver(c: Case, id: string, lifeAt: (v: number) => number): number | null {
  const channel = channelsOf(c.result, 'tray-voltage').find(({ owner }) => owner === id);
  if (channel === undefined) return null;
  const { edges_s, max, bucketCount } = c.result.recording;
  const { from_s, to_s } = c.result.window;
  let spent = 0;
  let length_s = 0;
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const width_s = edges_s[b + 1]! - edges_s[b]!;
    spent += width_s / lifeAt(max[channel.index]![b]!);
    length_s += width_s;
  }
  return spent > 0 ? length_s / spent : null;
}
