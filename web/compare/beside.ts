/** Two wakes beside each other: each quantity twice, on the same values and the same time. */
import { html } from '../dom.ts';
import type { Lens } from '../lens.ts';
import { extentOf } from '../panels/range.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import type { Band } from '../series.ts';
import { overBuckets, reachColumns } from '../taken/over-buckets.ts';
import { strokeWake } from './stroke.ts';
import { between, type SideWords, type Trace, traces } from './traces.ts';

export function makeBeside(lens: Lens, before: Record, after: Record, words: SideWords): HTMLElement {
  const element = html('div', { class: 'beside' });
  for (const trace of traces) {
    const sides = [
      { name: words.before, record: before, series: trace.of(before) },
      { name: words.after, record: after, series: trace.of(after) },
    ];
    const include = sides.flatMap(({ record, series }) =>
      series === null ? [] : extentOf([series], 0, record.bucketCount - 1),
    );
    for (const { name, record, series } of sides) {
      const half = html('div', {});
      element.append(half);
      if (series === null) half.append(html('p', { class: 'note' }, `${name}: no ${trace.title}`));
      else sidePanel(half, lens, record, series, trace, name, include);
    }
  }
  return element;
}

function sidePanel(
  host: HTMLElement,
  lens: Lens,
  record: Record,
  series: Band,
  { id, title, unit, quantity }: Trace,
  name: string,
  include: readonly number[],
): void {
  makePanel(host, lens, record, {
    id: `beside-${id}-${name}`,
    title: `${name}: ${title}`,
    note: '',
    height: 150,
    unit,
    series: () => [series],
    include,
    shades: [],
    table: () => overBuckets(record, reachColumns(quantity, series)),
    draw: (frame) => strokeWake(frame, series, unit),
    rows: (bucket) => [{ mark: 'solid', tint: 'copper', name, value: between(series, bucket, unit) }],
  });
}
