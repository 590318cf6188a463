/** One wake over another: bus, AC power and charge of the trays, in panels that follow the lens. */
import { html } from '../dom.ts';
import { type Frame, stretchOf } from '../frame.ts';
import type { Lens } from '../lens.ts';
import { fillBand, strokeEdge, strokeTrace } from '../paint.ts';
import { extentOf } from '../panels/range.ts';
import { makePanel } from '../plot.ts';
import type { Record, Series } from '../record.ts';
import { ink } from '../theme.ts';
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

  #panel(lens: Lens, before: Record, { id, title, unit, of }: Trace, series: Series): () => void {
    const { before: wasWords, after: isWords } = this.#words;
    const known = new WeakMap<Record, Series | null>();
    const later = (): { readonly record: Record; readonly series: Series } | null => {
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
      draw(frame) {
        fillBand(frame, series, ink('band'), 0.6);
        strokeEdge(frame, series, 'low', { tint: 'muted', width: 1, dash: [4, 3] });
        strokeEdge(frame, series, 'high', { tint: 'muted', width: 1, dash: [4, 3] });
        const now = later();
        if (now !== null) strokeAfter(frameOf(now.record, frame, lens), now.series, unit);
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
function frameOf(record: Record, frame: Frame, lens: Lens): Frame {
  return { ...frame, edges_s: record.edges_s, stretch: stretchOf(lens, record, frame.width) };
}

/** One quantity as a line, a group as its two edges. */
function strokeAfter(frame: Frame, series: Series, unit: string): void {
  if (unit === 'W') {
    strokeTrace(frame, series, { tint: 'copper', width: 1.6 });
    return;
  }
  fillBand(frame, series, ink('copper'), 0.16);
  strokeEdge(frame, series, 'low', { tint: 'copper', width: 1.6 });
  strokeEdge(frame, series, 'high', { tint: 'copper', width: 1.2 });
}
