/** The cells of trays as warm as they are, in place of the temperature that their models state. */
import { formatQuantity } from '../../base/quantity.ts';
import { capacitanceAt, esrAt } from '../../scenario/derived/cell-temperature.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import type { ReadScenario } from '../../scenario/read.ts';
import { statedTemperature } from './stated.ts';
import type { WarmPart } from './warm-part.ts';

/** Stretches that leave cells about as warm share a run [K]: half of it moves a resistance by less than what counts. */
const step_K = 0.5;

/** All trays share one temperature, the mean of their hot spots. Nothing of trays whose values do not go with it. */
export function warmCells(
  { scenario: { trays }, cells }: Pick<ReadScenario, 'scenario' | 'cells'>,
  tray_degC: ReadonlyMap<string, number>,
): readonly (readonly [path: string, part: WarmPart])[] {
  const all = trays.flatMap(({ id }) => tray_degC.get(id) ?? []);
  if (all.length === 0) return [];
  const degC = step_K * Math.round(all.reduce((sum, one) => sum + one, 0) / all.length / step_K);
  const ratio = trays.reduce((most, { values }) => farther(most, ratioAt(values, degC)), 1);
  if (ratio === 1) return [];
  const paths = trays.map(({ id }) => `trays.${id}.cell_temperature`);
  const stated_degC = statedTemperature(cells, paths, degC);
  return [['trays.cell_temperature', { ratio, value: formatQuantity(stated_degC, 'temperature', 6) }]];
}

/** Resistance at a temperature over that of the values as they stand, or capacitance where that moves more. */
function ratioAt(values: TrayValues, degC: number): number {
  const stated = values.cell_temperature_degC;
  return farther(
    esrAt(values, degC) / esrAt(values, stated),
    capacitanceAt(values, degC) / capacitanceAt(values, stated),
  );
}

function farther(one: number, other: number): number {
  return Math.abs(other - 1) > Math.abs(one - 1) ? other : one;
}
