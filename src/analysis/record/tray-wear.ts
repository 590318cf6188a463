/** What the recorded voltages of a tray take of its cells' life. */
import type { Span } from '../../events/spans.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import { cellLife_s } from '../../slow/life.ts';
import { type Case, channelsOf, type Ran } from './case.ts';
import { once } from './once.ts';

/**
 * Part of a life that a second takes at a temperature, over a stretch: damage adds, ∫ dt/L(v) over its length, v the highest of each
 * recorded bucket. 0 where the model states no life or nothing was recorded.
 */
export function wornPerSecond(c: Case, id: string, values: TrayValues, span: Span, degC: number): number {
  const rated = ratedOf(values);
  if (!(rated.life_s > 0) || !(rated.cells > 0)) return 0;
  // A temperature makes every life longer by one factor, whatever the voltage.
  const longer = cellLife_s(rated, degC)(rated.voltage_V) / rated.life_s;
  return wornAsStated(c.ran, id, rated, span) / longer;
}

/** What the voltages of a tray took in a stretch. */
interface Worn extends Span {
  readonly voltage_V: ArrayLike<number>;
  readonly rated: Rated;
  readonly worn_per_s: number;
}

/** What was worked out of a run. */
const known = once((_: Ran): Worn[] => []);

/** The same at the temperature that the life is stated for. Trays that carry alike have the same voltages: once for all of them. */
function wornAsStated(ran: Ran, id: string, rated: Rated, { from_s, to_s }: Span): number {
  const { edges_s, max, bucketCount } = ran.result.recording;
  const channel = channelsOf(ran.result, 'tray-voltage').find(({ owner }) => owner === id);
  if (channel === undefined) return 0;
  const voltage_V = max[channel.index]!;
  const before = known(ran).find(
    (worn) =>
      worn.from_s === from_s &&
      worn.to_s === to_s &&
      isSame(worn.rated, rated) &&
      isAlike(worn.voltage_V, voltage_V, bucketCount),
  );
  if (before !== undefined) return before.worn_per_s;
  const lifeAt = cellLife_s(rated, rated.temperature_degC);
  let spent = 0;
  let length_s = 0;
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const width_s = edges_s[b + 1]! - edges_s[b]!;
    spent += width_s / lifeAt(voltage_V[b]! / rated.cells);
    length_s += width_s;
  }
  const worn_per_s = length_s > 0 ? spent / length_s : 0;
  known(ran).push({ from_s, to_s, voltage_V, rated, worn_per_s });
  return worn_per_s;
}

function isAlike(a: ArrayLike<number>, b: ArrayLike<number>, count: number): boolean {
  for (let k = 0; k < count; k++) if (a[k] !== b[k]) return false;
  return true;
}

/** What a model states of a cell's life, and how many cells share a tray's voltage. */
interface Rated {
  readonly life_s: number;
  readonly temperature_degC: number;
  readonly voltage_V: number;
  readonly cells: number;
}

function isSame(a: Rated, b: Rated): boolean {
  return (
    a.life_s === b.life_s &&
    a.temperature_degC === b.temperature_degC &&
    a.voltage_V === b.voltage_V &&
    a.cells === b.cells
  );
}

function ratedOf(values: TrayValues): Rated {
  const { rated_life_s, rated_life_temperature_degC, rated_voltage_V, cell_count_count: cells } = values;
  return {
    life_s: rated_life_s,
    temperature_degC: rated_life_temperature_degC,
    voltage_V: rated_voltage_V / cells,
    cells,
  };
}
