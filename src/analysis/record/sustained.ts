/** What a unit kept up for a time, as a share of its rating. */
import type { Sustained } from '../../engine/result.ts';
import { notShown, type Reading, unsettled } from '../read/reading.ts';
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
    const most = worst(
      [inside, cut].filter((one) => one !== null),
      ({ value }) => value,
    );
    return most === null ? [] : [{ id, ratio: most.value / rating, time_s: most.time_s }];
  });
  const most = worst(ratios, ({ ratio }) => ratio);
  const short = `the window is shorter than ${Number(over_s.toPrecision(4))} s`;
  if (most === null) return notShown(short);
  const reading = { value: most.ratio, node: most.id, time_s: most.time_s };
  // What came before alone shows nothing of what comes after.
  return readings.size > 0 ? reading : unsettled(reading, short, 'worse');
}
