/** Tables over the buckets of a recording: each from its `time_s` until its `until_s`. */
import type { Recording } from '../../src/engine/result.ts';
import type { Record, Series } from '../record.ts';
import type { Column, Table } from './table.ts';

export function overBuckets(
  { edges_s, bucketCount }: Pick<Record, 'edges_s' | 'bucketCount'>,
  columns: readonly Column[],
): Table {
  return {
    over: { name: 'time_s', values: edges_s.subarray(0, bucketCount) },
    columns: [{ name: 'until_s', values: edges_s.subarray(1, bucketCount + 1) }, ...columns],
  };
}

/** Smallest, largest and mean value of a channel, by its id. */
export function channelColumns({ channels, min, max, mean }: Recording, id: string): readonly Column[] {
  const c = channels.findIndex((channel) => channel.id === id);
  if (c < 0) return [];
  return [...reachColumns(id, { min: min[c]!, max: max[c]! }), { name: `${id}.mean`, values: mean[c]! }];
}

/** Smallest and largest value of what is drawn as a band: of a group there is no mean. */
export function reachColumns(name: string, { min, max }: Series): readonly Column[] {
  return [
    { name: `${name}.min`, values: min },
    { name: `${name}.max`, values: max },
  ];
}
