/** What a run shows of what heats, wears and charges, for as long as it goes on (`tail.ts`): its drive of slow states. */

import type { MeanSquare } from '../../engine/result.ts';
import type { Span } from '../../events/spans.ts';
import { barOf } from '../../slow/bar-of.ts';
import type { Drive } from '../../slow/drive.ts';
import { type Case, channelsOf } from './case.ts';
import { tailOf } from './tail.ts';
import { wornPerSecond } from './tray-wear.ts';

export function driveOf(c: Case): Drive {
  const { from_s, squares } = tailOf(c);
  const span = { from_s, to_s: c.result.window.to_s };
  const of = (kind: Parameters<typeof channelsOf>[1]): { owner: string; square: MeanSquare }[] =>
    channelsOf(c.result, kind).flatMap(({ id, owner }) => {
      const square = squares.find(({ channel }) => channel === id);
      return square === undefined ? [] : [{ owner, square }];
    });
  const ends = new Map(c.result.bars.map(({ id, resistance_ohm }) => [id, resistance_ohm]));
  return {
    bars: of('bar-current').map(({ owner, square }) => ({
      id: owner,
      mean_A: square.mean,
      rms_A: square.rms,
      aged_ohm: Math.max(0, (ends.get(owner) ?? 0) - barOf(c.scenario, owner).resistance_ohm),
    })),
    trays: of('tray-current').flatMap(({ owner, square }) => {
      const tray = c.scenario.trays.find(({ id }) => id === owner);
      if (tray === undefined) return [];
      const at_degC = tray.values.rated_life_temperature_degC;
      return [
        { id: owner, rms_A: square.rms, worn_per_s: wornPerSecond(c, owner, tray.values, span, at_degC) },
      ];
    }),
    banks: of('bank-current').map(({ owner, square }) => ({ id: owner, rms_A: square.rms })),
    batteries: of('battery-current').map(({ owner, square }) => ({
      id: owner,
      power_W: square.mean * busAt_V(c, owner, span),
    })),
  };
}

/** Mean voltage where a unit stands [V]; the bus without load where it was not recorded. */
function busAt_V(c: Case, unit: string, { from_s, to_s }: Span): number {
  const section = c.scenario.sections.find(({ order }) => order.includes(unit));
  const { channels, bucketCount, edges_s, mean } = c.result.recording;
  const index = channels.findIndex(({ id }) => id === `${section?.id}.${unit}.voltage_V`);
  if (index < 0) return c.noLoad_V;
  let [sum, length_s] = [0, 0];
  for (let b = 0; b < bucketCount; b++) {
    if (edges_s[b]! < from_s - 1e-9 || edges_s[b + 1]! > to_s + 1e-9) continue;
    const width_s = edges_s[b + 1]! - edges_s[b]!;
    sum += width_s * mean[index]![b]!;
    length_s += width_s;
  }
  return length_s > 0 ? sum / length_s : c.noLoad_V;
}
