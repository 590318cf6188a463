/** What a unit kept up for a time, as a share of its rating. */
import type { Sustained } from '../../engine/result.ts';
import { notShown, type Reading } from '../read/reading.ts';
import { type Case, worst } from './case.ts';

export interface Rated {
  readonly id: string;
  /** In the channel's unit. */
  readonly rating: number;
}

/** Worst unit by the mean of a stretch, or by the level that it stays above throughout one. */
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
    const reading = readings.get(channelOf(id));
    if (reading === undefined || !(rating > 0)) return [];
    const [value, time_s] = by === 'mean' ? [reading.mean, reading.mean_s] : [reading.held, reading.held_s];
    return [{ id, ratio: value / rating, time_s }];
  });
  const most = worst(ratios, ({ ratio }) => ratio);
  if (most === null) return notShown(`the window is shorter than ${Number(over_s.toPrecision(4))} s`);
  return { value: most.ratio, node: most.id, time_s: most.time_s };
}
