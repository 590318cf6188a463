/** What a kept run holds of its waveforms, as tables: envelopes, close-ups, 10 ms means, uniform streams. */
import type { Recording, Result, Stream, WindowMeans } from '../engine/result.ts';
import { type Cells, type ExportTable, numberColumn } from './table.ts';

/** Every name that `tablesOf` knows, each once. */
export function namesIn({ recording, means, streams }: Result): readonly string[] {
  return [
    ...new Set([
      ...recording.channels.map(({ id }) => id),
      ...means.columns.keys(),
      ...streams.map(({ channel }) => channel),
    ]),
  ];
}

/** The tables with the columns that are `wanted`; one in which none is wanted is left out. */
export function tablesOf(result: Result, wanted: ReadonlySet<string>): readonly ExportTable[] {
  const { recording, means, streams } = result;
  return [
    envelopes(recording, wanted),
    closeUps(recording, wanted),
    meansTable(means, wanted),
    streamsTable(streams, wanted),
  ].filter((table) => table !== null);
}

/** One row a bucket: from when to when, and each channel's smallest, largest and mean value in it (binary32). */
function envelopes(recording: Recording, wanted: ReadonlySet<string>): ExportTable | null {
  const { channels, edges_s, bucketCount, min, max, mean } = recording;
  const picked = channels.map(({ id }, c) => ({ id, c })).filter(({ id }) => wanted.has(id));
  if (picked.length === 0) return null;
  return {
    name: 'envelopes',
    columns: [
      'from_s',
      'to_s',
      ...picked.flatMap(({ id }) => ['min', 'max', 'mean'].map((of) => `${of}.${id}`)),
    ].map(numberColumn),
    rows: bucketCount,
    block: (from, to) => [
      edges_s.subarray(from, to),
      edges_s.subarray(from + 1, to + 1),
      ...picked.flatMap(({ c }) => [min, max, mean].map((of) => of[c]!.subarray(from, to))),
    ],
  };
}

/** One row a moment of the stretches that are kept step by step, numbered from 1 (binary32). */
function closeUps(
  { channels, closeUps: stretches }: Recording,
  wanted: ReadonlySet<string>,
): ExportTable | null {
  const picked = channels.map(({ id }, c) => ({ id, c })).filter(({ id }) => wanted.has(id));
  if (picked.length === 0 || stretches.length === 0) return null;
  const moments = stretches.flatMap(({ time_s }, k) => Array.from(time_s, (_, m) => ({ k, m })));
  return {
    name: 'close-ups',
    columns: ['time_s', 'close_up', ...picked.map(({ id }) => id)].map(numberColumn),
    rows: moments.length,
    block: (from, to) => {
      const rows = moments.slice(from, to);
      return [
        Float64Array.from(rows, ({ k, m }) => stretches[k]!.time_s[m]!),
        Float64Array.from(rows, ({ k }) => k + 1),
        ...picked.map(({ c }) => Float32Array.from(rows, ({ k, m }) => stretches[k]!.values[c]![m]!)),
      ];
    },
  };
}

/** Means over adjacent 10 ms of the judged window: totals, shelves' currents, feeders' AC power. */
function meansTable(
  { width_s, from_s, columns }: WindowMeans,
  wanted: ReadonlySet<string>,
): ExportTable | null {
  const picked = [...columns].filter(([id]) => wanted.has(id));
  return evenTable('means', picked, from_s, 1 / width_s);
}

/** Uniform streams of the judged window: 1 kHz, flat to 300 Hz. */
function streamsTable(streams: readonly Stream[], wanted: ReadonlySet<string>): ExportTable | null {
  const picked = streams.filter(({ channel }) => wanted.has(channel));
  const [first] = picked;
  if (first === undefined) return null;
  return evenTable(
    'streams',
    picked.map(({ channel, samples }) => [channel, samples]),
    first.from_s,
    first.rate_Hz,
  );
}

/** Rows evenly spaced; `time_s` is the middle of the interval that a row stands for. */
function evenTable(
  name: string,
  picked: readonly (readonly [string, Float64Array])[],
  from_s: number,
  rate_Hz: number,
): ExportTable | null {
  const rows = picked[0]?.[1].length ?? 0;
  if (picked.length === 0) return null;
  return {
    name,
    columns: ['time_s', ...picked.map(([id]) => id)].map(numberColumn),
    rows,
    block: (from, to): readonly Cells[] => [
      Float64Array.from({ length: to - from }, (_, j) => from_s + (from + j + 0.5) / rate_Hz),
      ...picked.map(([, values]) => values.subarray(from, to)),
    ],
  };
}
