/** Tables over the buckets of a record: each from its `time_s` until its `until_s`; of a single moment both are that moment. */
import type { Record } from '../record.ts';
import type { Band } from '../series.ts';
import type { Column, Table } from './table.ts';

export function overBuckets(
  { edges_s, moments_s }: Pick<Record, 'edges_s' | 'moments_s'>,
  columns: readonly Column[],
): Table {
  const edge = (next: 0 | 1): Float64Array =>
    moments_s.map((moment_s, b) => (Number.isNaN(moment_s) ? edges_s[b + next]! : moment_s));
  return {
    over: { name: 'time_s', values: edge(0) },
    columns: [{ name: 'until_s', values: edge(1) }, ...columns],
  };
}

/** Smallest, largest and mean value of a channel, by its id. */
export function channelColumns(record: Record, id: string): readonly Column[] {
  const series = record.series(id);
  return series === null ? [] : [...reachColumns(id, series), { name: `${id}.mean`, values: series.mean }];
}

/** Smallest and largest value of what is drawn as a band: of a group there is no mean. */
export function reachColumns(name: string, { min, max }: Band): readonly Column[] {
  return [
    { name: `${name}.min`, values: min },
    { name: `${name}.max`, values: max },
  ];
}
