/** What a kept run holds of its waveforms, as tables: envelopes, 10 ms means, uniform streams. */
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
  return [envelopes(recording, wanted), meansTable(means, wanted), streamsTable(streams, wanted)].filter(
    (table) => table !== null,
  );
}

/** One row a bucket: from when to when, and the smallest and largest value of each channel in it (binary32). */
function envelopes(recording: Recording, wanted: ReadonlySet<string>): ExportTable | null {
  const { channels, edges_s, bucketCount, min, max } = recording;
  const picked = channels.map(({ id }, c) => ({ id, c })).filter(({ id }) => wanted.has(id));
  if (picked.length === 0) return null;
  return {
    name: 'envelopes',
    columns: ['from_s', 'to_s', ...picked.flatMap(({ id }) => [`min.${id}`, `max.${id}`])].map(numberColumn),
    rows: bucketCount,
    block: (from, to) => [
      edges_s.subarray(from, to),
      edges_s.subarray(from + 1, to + 1),
      ...picked.flatMap(({ c }) => [
        Float64Array.from(min[c]!.subarray(from, to)),
        Float64Array.from(max[c]!.subarray(from, to)),
      ]),
    ],
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
