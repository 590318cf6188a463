/** One wake over another: bus, AC power and charge of the trays, in panels that follow the lens. */
import { html } from '../dom.ts';
import { type Frame, stretchOf } from '../frame.ts';
import type { Lens } from '../lens.ts';
import { fillBand, strokeEdge } from '../paint.ts';
import { extentOf } from '../panels/range.ts';
import { makePanel } from '../plot.ts';
import type { Record } from '../record.ts';
import type { Band } from '../series.ts';
import { overBuckets, reachColumns } from '../taken/over-buckets.ts';
import { ink } from '../theme.ts';
import { strokeWake } from './stroke.ts';
import { between, type SideWords, type Trace, traces } from './traces.ts';

/** Panels that show `before` alone until they are given another record. */
export class Overlay {
  readonly element: HTMLElement = html('div', { class: 'overlay' });
  readonly #redraw: readonly (() => void)[];
  #after: Record | null = null;

  readonly #words: SideWords;

  constructor(lens: Lens, before: Record, words: SideWords) {
    this.#words = words;
    this.#redraw = traces.flatMap((trace) => {
      const series = trace.of(before);
      return series === null ? [] : [this.#panel(lens, before, trace, series)];
    });
  }

  show(after: Record): void {
    this.#after = after;
    for (const redraw of this.#redraw) redraw();
  }

  #panel(lens: Lens, before: Record, { id, title, unit, quantity, of }: Trace, series: Band): () => void {
    const { before: wasWords, after: isWords } = this.#words;
    const known = new WeakMap<Record, Band | null>();
    const later = (): { readonly record: Record; readonly series: Band } | null => {
      const record = this.#after;
      if (record === null) return null;
      if (!known.has(record)) known.set(record, of(record));
      const found = known.get(record) ?? null;
      return found === null ? null : { record, series: found };
    };
    return makePanel(this.element, lens, before, {
      id: `${this.#words.room}-${id}`,
      title,
      note: `${this.#words.before} behind, ${this.#words.after} in front`,
      height: 150,
      unit,
      series: () => [series],
      include: [],
      shades: [],
      range(first, last) {
        const now = later();
        const was = extentOf([series], first, last);
        if (now === null || now.record.bucketCount === 0) return was;
        const [from, to] = [before.edges_s[first]!, before.edges_s[last + 1]!];
        const is = extentOf([now.series], now.record.bucketAt(from), now.record.bucketAt(to));
        return [Math.min(was[0], is[0]), Math.max(was[1], is[1])];
      },
      table: () => {
        const now = later();
        const after =
          now === null
            ? []
            : reachColumns(`${keyed(isWords)}.${quantity}`, overEdges(now.series, now.record, before));
        return overBuckets(before, [...reachColumns(`${keyed(wasWords)}.${quantity}`, series), ...after]);
      },
      draw(frame) {
        fillBand(frame, series, ink('band'), 0.6);
        strokeEdge(frame, series, 'low', { tint: 'muted', width: 1, dash: [4, 3] });
        strokeEdge(frame, series, 'high', { tint: 'muted', width: 1, dash: [4, 3] });
        const now = later();
        if (now !== null) strokeWake(frameOf(now.record, frame), now.series, unit);
      },
      rows(bucket) {
        const now = later();
        const at = now === null ? 0 : now.record.bucketAt(lens.cursor_s);
        return [
          { mark: 'box', tint: 'band', name: wasWords, value: between(series, bucket, unit) },
          {
            mark: 'solid',
            tint: 'copper',
            name: isWords,
            value: now === null ? '–' : between(now.series, at, unit),
          },
        ];
      },
    });
  }
}

/** The same stretch of time with another record's buckets. */
function frameOf(record: Record, frame: Frame): Frame {
  return { ...frame, buckets: record, stretch: stretchOf(frame.stretch, record, frame.width) };
}

/** What a series of one record reaches in each bucket of another: in all of its own buckets that the other's touches. */
function overEdges(series: Band, own: Record, { edges_s, bucketCount }: Record): Band {
  const reach = Array.from({ length: bucketCount }, (_, b) =>
    extentOf([series], own.bucketAt(edges_s[b]!), own.bucketAt(edges_s[b + 1]!)),
  );
  return { min: Float32Array.from(reach, ([low]) => low), max: Float32Array.from(reach, ([, high]) => high) };
}

/** Words as a part of a column's name. */
function keyed(words: string): string {
  return words.replaceAll(/\W+/g, '_');
}
