/** A picture packed as numbers of sixteen bits, and read back (picture.md). */
import type { Channel } from '../channels/channel.ts';
import type { CloseUp } from '../engine/result.ts';
import { along } from './along.ts';
import { byKind } from './kinds.ts';
import { levelsOf, type Scale, scaleOver, valuesOf } from './levels.ts';
import type { Picture, Shown } from './picture.ts';
import { PlaneReader, PlaneWriter } from './planes.ts';
import { fold, type Steps, stepsOf, unfold } from './remainders.ts';
import { putTimes, takeTimes, ticksOf } from './times.ts';

/** Levels over a range: of buckets and even columns, of a mean between smallest and largest value. */
const fine = 4095;
const between = 63;

/** Values of a close-up are rounded to this part of what they may lie beside their lines. */
const rounded_ratio = 0.5;

/** What of a picture is no long row of numbers. */
export interface PictureHead {
  readonly tick_s: number;
  readonly buckets: number;
  /** Moments of each close-up, and how many of them each kind has. */
  readonly close_ups: readonly { readonly moments: number; readonly kept: readonly number[] }[];
  readonly even: readonly { readonly name: string; readonly length: number }[];
  /** In the order in which the numbers follow each other. */
  readonly scales: readonly (readonly [from: number, step: number])[];
}

export interface PackedPicture {
  readonly head: PictureHead;
  readonly bytes: Uint8Array;
}

/** Times are whole ticks of `tick_s`. */
export function packPicture(picture: Picture, tick_s: number): PackedPicture {
  const { recording, closeUps, straight_ratio, even } = picture;
  const { channels, edges_s, bucketCount, min, max, mean } = recording;
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
  for (const { time_s, kept } of closeUps) {
    putTimes(time_s, tick_s, put);
    for (const places of kept) for (let k = 1; k < places.length; k += 1) put(places[k]! - places[k - 1]!);
  }
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
  const close = 1 + Math.round(1 / (rounded_ratio * straight_ratio));
  for (const { time_s, values, kept } of closeUps) {
    // Of the times as they will be read.
    const read_s = ticksOf(time_s, tick_s).map((tick) => tick * tick_s);
    kinds.forEach((places, kind) => {
      const own = kept[kind]!;
      const steps = stepsOf(Float64Array.from(own, (k) => read_s[k]!));
      const columns = places.map((c) => Float32Array.from(own, (k) => values[c]![k]!));
      const scale = scaled(columns, close);
      fold(
        columns.map((column) => levelsOf(column, scale, 'round')),
        steps,
        put,
      );
    });
  }
  for (const { values } of even) {
    const levels = levelsOf(values, scaled([values], fine), 'round');
    fold([levels], evenSteps(levels.length), put);
  }
  return {
    head: {
      tick_s,
      buckets: bucketCount,
      close_ups: closeUps.map(({ time_s, kept }) => ({
        moments: time_s.length,
        kept: kept.map((places) => places.length),
      })),
      even: even.map(({ name, values }) => ({ name, length: values.length })),
      scales,
    },
    bytes: planes.bytes(),
  };
}

/** Throws RangeError where there are fewer numbers than the head says. */
export function unpackPicture({ head, bytes }: PackedPicture, channels: readonly Channel[]): Shown {
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
  const lines = head.close_ups.map(({ moments, kept }) => ({
    time_s: takeTimes(moments, tick_s, take),
    kept: kept.map((count) => takePlaces(count, take)),
  }));
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
  const closeUps = lines.map(({ time_s, kept }): CloseUp => {
    const values = channels.map(() => new Float32Array(0));
    kinds.forEach((places, kind) => {
      const own = kept[kind]!;
      const steps = stepsOf(Float64Array.from(own, (k) => time_s[k]!));
      const scale = nextScale();
      unfold(places.length, own.length, steps, take).forEach((levels, k) => {
        values[places[k]!] = along(time_s, own, valuesOf(levels, scale, new Float32Array(levels.length)));
      });
    });
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

/** Places that grow from 0, each told as its distance from the one before. */
function takePlaces(count: number, take: () => number): readonly number[] {
  const places = [0];
  while (places.length < count) places.push(places.at(-1)! + take());
  return places;
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
