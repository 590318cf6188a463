/** What a unit kept up for a time, as a share of its rating. */
import type { Sustained } from '../../engine/result.ts';
import { notShown, type Reading } from '../read/reading.ts';
import { acrossCut } from './across-cut.ts';
import { type Case, worst } from './case.ts';

export interface Rated {
  readonly id: string;
  /** In the channel's unit. */
  readonly rating: number;
}

/**
 * Worst unit by the mean of a stretch, or by the level that it stays above throughout one; stretches that the beginning of the
 * window cuts count where it is known what came before.
 */
export function readSustained(
  c: Case,
  units: readonly Rated[],
  channelOf: (unit: string) => string,
  over_s: number,
  by: 'mean' | 'held',
): Reading {
  const readings = new Map(
    c.result.sustained.filter((s) => s.over_s === over_s).map((s): [string, Sustained] => [s.channel, s]),
  );
  const ratios = units.flatMap(({ id, rating }) => {
    if (!(rating > 0)) return [];
    const reading = readings.get(channelOf(id));
    const inside =
      reading === undefined
        ? null
        : by === 'mean'
          ? { value: reading.mean, time_s: reading.mean_s }
          : { value: reading.held, time_s: reading.held_s };
    const cut = acrossCut(c, channelOf(id), over_s, by);
    // A window too short for a stretch of its own shows nothing of what comes after.
    const kept = inside === null ? (cut !== null && cut.value > rating ? cut : null) : inside;
    if (kept === null) return [];
    const { value, time_s } = cut !== null && cut.value > kept.value ? cut : kept;
    return [{ id, ratio: value / rating, time_s }];
  });
  const most = worst(ratios, ({ ratio }) => ratio);
  if (most === null) return notShown(`the window is shorter than ${Number(over_s.toPrecision(4))} s`);
  return { value: most.ratio, node: most.id, time_s: most.time_s };
}
