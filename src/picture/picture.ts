/** What a page shows of a run: fewer buckets, close-ups as lines, its even columns (picture.md). */
import type { Recording, Result } from '../engine/result.ts';
import { coarser } from './coarser.ts';
import { type Lines, thinned } from './thinner.ts';

/** Buckets of a run that is not long, and of which length a run is long [s]. */
const usualBuckets = 1280;
const long_s = 450;

/** What is even: a stream or the means of a channel, by the name it has in the bundle. */
export interface EvenColumn {
  readonly name: string;
  readonly values: Float64Array;
}

export interface Picture {
  /** Its buckets, without close-ups. */
  readonly recording: Recording;
  readonly closeUps: readonly Lines[];
  /** How far a value of a close-up may lie beside its line, of the range of its kind within the close-up. */
  readonly straight_ratio: number;
  readonly even: readonly EvenColumn[];
}

/** A picture unpacked: a recording to draw, each close-up with a value of every channel at all its moments. */
export interface Shown {
  readonly recording: Recording;
  readonly even: readonly EvenColumn[];
}

/** Buckets in the picture of a run of that length. */
export function bucketsFor(duration_s: number): number {
  return Math.round(usualBuckets * Math.max(1, duration_s / long_s));
}

/** The buckets of a run alone, as many as its picture shows. */
export function bucketsOf(recording: Recording): Picture {
  const duration_s = recording.edges_s[recording.bucketCount] ?? 0;
  const buckets = { ...coarser(recording, bucketsFor(duration_s)), closeUps: [] };
  return { recording: buckets, closeUps: [], straight_ratio: 0, even: [] };
}

/** What of a run its picture shows. */
export function pictureOf({ recording, streams, means }: Result): Picture {
  const power = means.columns.get('total.ac_power_W');
  const { lines, straight_ratio } = thinned(recording);
  return {
    ...bucketsOf(recording),
    closeUps: lines,
    straight_ratio,
    even: [
      ...streams.map(({ channel, samples }) => ({ name: `stream/${channel}`, values: samples })),
      ...(power === undefined ? [] : [{ name: 'means/total.ac_power_W', values: power }]),
    ],
  };
}
