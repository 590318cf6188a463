/** The picture of a run, as a page carries it: what it is made of, packed and unpacked (picture.md). */
import type { Channel } from '../channels/channel.ts';
import type { CloseUp, Recording, Result } from '../engine/result.ts';
import { coarser } from './coarser.ts';
import { byKind } from './kinds.ts';
import { levelsOf, type Scale, scaleOver, valuesOf } from './levels.ts';
import { PlaneReader, PlaneWriter } from './planes.ts';
import { fold, type Steps, stepsOf, unfold } from './remainders.ts';
import { thinned } from './thinner.ts';
import { putTimes, takeTimes, ticksOf } from './times.ts';

/** Levels over a range: of buckets and even columns, of close-ups, of a mean between smallest and largest value. */
const fine = 4095;
const close = 2047;
const between = 63;

/** Buckets of a run that is not long, and of which length a run is long [s]. */
const usualBuckets = 1280;
const long_s = 450;

/** What is even: a stream or the means of a channel, by the name it has in the bundle. */
export interface EvenColumn {
  readonly name: string;
  readonly values: Float64Array;
}

/** What of a picture is no long row of numbers. */
export interface PictureHead {
  readonly tick_s: number;
  readonly buckets: number;
  /** Moments of each close-up. */
  readonly close_ups: readonly number[];
  readonly even: readonly { readonly name: string; readonly length: number }[];
  /** In the order in which the numbers follow each other. */
  readonly scales: readonly (readonly [from: number, step: number])[];
}

export interface PackedPicture {
  readonly head: PictureHead;
  readonly bytes: Uint8Array;
}

export interface Picture {
  readonly recording: Recording;
  readonly even: readonly EvenColumn[];
}

/** Buckets in the picture of a run of that length. */
export function bucketsFor(duration_s: number): number {
  return Math.round(usualBuckets * Math.max(1, duration_s / long_s));
}

/** What of a run its picture shows. */
export function pictureOf({ recording, streams, means }: Result): Picture {
  const duration_s = recording.edges_s[recording.bucketCount] ?? 0;
  const power = means.columns.get('total.ac_power_W');
  return {
    recording: { ...coarser(recording, bucketsFor(duration_s)), closeUps: thinned(recording) },
    even: [
      ...streams.map(({ channel, samples }) => ({ name: `stream/${channel}`, values: samples })),
      ...(power === undefined ? [] : [{ name: 'means/total.ac_power_W', values: power }]),
    ],
  };
}

/** Times are whole ticks of `tick_s`. */
export function packPicture({ recording, even }: Picture, tick_s: number): PackedPicture {
  const { channels, edges_s, bucketCount, min, max, mean, closeUps } = recording;
  const planes = new PlaneWriter();
  const put = (value: number): void => planes.put(value);
  const scales: [number, number][] = [];
  const scaled = (columns: readonly ArrayLike<number>[], levels: number): Scale => {
    const scale = scaleOver(columns, levels);
    scales.push([scale.from, scale.step]);
    return scale;
  };
  const kinds = byKind(channels);
  putTimes(edges_s.subarray(0, bucketCount + 1), tick_s, put);
  for (const { time_s } of closeUps) putTimes(time_s, tick_s, put);
  for (const places of kinds) {
    const scale = scaled([...places.map((c) => min[c]!), ...places.map((c) => max[c]!)], fine);
    const low = places.map((c) => levelsOf(min[c]!, scale, 'floor'));
    const high = places.map((c) => levelsOf(max[c]!, scale, 'ceil'));
    fold(low, null, put);
    fold(
      high.map((levels, k) => levels.map((level, b) => level - low[k]![b]!)),
      null,
      put,
    );
    fold(
      places.map((c) => placeBetween(mean[c]!, min[c]!, max[c]!)),
      null,
      put,
    );
  }
  for (const { time_s, values } of closeUps) {
    // Of the times as they will be read.
    const steps = stepsOf(ticksOf(time_s, tick_s).map((tick) => tick * tick_s));
    for (const places of kinds) {
      const columns = places.map((c) => values[c]!);
      const scale = scaled(columns, close);
      fold(
        columns.map((column) => levelsOf(column, scale, 'round')),
        steps,
        put,
      );
    }
  }
  for (const { values } of even) {
    const levels = levelsOf(values, scaled([values], fine), 'round');
    fold([levels], evenSteps(levels.length), put);
  }
  return {
    head: {
      tick_s,
      buckets: bucketCount,
      close_ups: closeUps.map(({ time_s }) => time_s.length),
      even: even.map(({ name, values }) => ({ name, length: values.length })),
      scales,
    },
    bytes: planes.bytes(),
  };
}

/** Throws RangeError where there are fewer numbers than the head says. */
export function unpackPicture({ head, bytes }: PackedPicture, channels: readonly Channel[]): Picture {
  const { tick_s, buckets } = head;
  const planes = new PlaneReader(bytes);
  const take = (): number => planes.take();
  const scales = head.scales.map(([from, step]) => ({ from, step })).values();
  const nextScale = (): Scale => {
    const { done, value } = scales.next();
    if (done === true) throw new RangeError('the picture has fewer scales than its head says');
    return value;
  };
  const kinds = byKind(channels);
  const edges_s = takeTimes(buckets + 1, tick_s, take);
  const moments = head.close_ups.map((count) => takeTimes(count, tick_s, take));
  const [min, max, mean] = [0, 1, 2].map(() => channels.map(() => new Float32Array(0)));
  for (const places of kinds) {
    const scale = nextScale();
    const [low, reach, share] = [0, 1, 2].map(() => unfold(places.length, buckets, null, take));
    places.forEach((c, k) => {
      const high = low![k]!.map((level, b) => level + reach![k]![b]!);
      min![c] = valuesOf(low![k]!, scale, new Float32Array(buckets));
      max![c] = valuesOf(high, scale, new Float32Array(buckets));
      mean![c] = min![c]!.map((least, b) => least + (share![k]![b]! / between) * (max![c]![b]! - least));
    });
  }
  const closeUps = moments.map((time_s): CloseUp => {
    const steps = stepsOf(time_s);
    const values = channels.map(() => new Float32Array(0));
    for (const places of kinds) {
      const scale = nextScale();
      unfold(places.length, time_s.length, steps, take).forEach((levels, k) => {
        values[places[k]!] = valuesOf(levels, scale, new Float32Array(levels.length));
      });
    }
    return { time_s, values };
  });
  const even = head.even.map(({ name, length }) => {
    const scale = nextScale();
    const [levels] = unfold(1, length, evenSteps(length), take);
    return { name, values: valuesOf(levels!, scale, new Float64Array(length)) };
  });
  const recording = { channels, bucketCount: buckets, edges_s, min: min!, max: max!, mean: mean!, closeUps };
  return { recording, even };
}

/** Where the mean lies between smallest and largest value. */
function placeBetween(mean: Float32Array, min: Float32Array, max: Float32Array): Uint16Array {
  const places = new Uint16Array(mean.length);
  for (let b = 0; b < mean.length; b += 1) {
    const reach = max[b]! - min[b]!;
    if (reach > 0) places[b] = Math.round((between * (mean[b]! - min[b]!)) / reach);
  }
  return places;
}

/** Even samples: each step as long as the one before. */
function evenSteps(length: number): Steps {
  return new Float64Array(length).fill(1);
}
