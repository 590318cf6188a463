/** What the recorded voltages of a tray take of its cells' life. */
import type { Span } from '../../events/spans.ts';
import type { TrayValues } from '../../scenario/parameters/tray.ts';
import { cellLife_s } from '../../slow/life.ts';
import { type Case, channelsOf } from './case.ts';

/**
 * Part of a life that a second takes at a temperature, over a stretch: damage adds, ∫ dt/L(v) over its length, v the highest of each
 * recorded bucket. 0 where the model states no life or nothing was recorded.
 */
export function wornPerSecond(
  c: Case,
  id: string,
  values: TrayValues,
  { from_s, to_s }: Span,
  degC: number,
): number {
  const { rated_life_s, cell_count_count: cells, rated_voltage_V, rated_life_temperature_degC } = values;
  const channel = channelsOf(c.result, 'tray-voltage').find(({ owner }) => owner === id);
  if (channel === undefined || !(rated_life_s > 0) || !(cells > 0)) return 0;
  const lifeAt = cellLife_s(
    {
      life_s: rated_life_s,
      temperature_degC: rated_life_temperature_degC,
      voltage_V: rated_voltage_V / cells,
    },
    degC,
  );
  const { edges_s, max, bucketCount } = c.result.recording;
  let spent = 0;
  let length_s = 0;
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const width_s = edges_s[b + 1]! - edges_s[b]!;
    spent += width_s / lifeAt(max[channel.index]![b]! / cells);
    length_s += width_s;
  }
  return length_s > 0 ? spent / length_s : 0;
}
