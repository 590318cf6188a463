/** Of several words that may hold of a unit, the one that holds now: a span of it and of none of the others. */
import type { SpanBook, SpanTrack } from './span-book.ts';
import type { SpanKind, WhatOf } from './spans.ts';

export class SpanChoice<K extends SpanKind, W extends WhatOf<K>> {
  private readonly tracks: ReadonlyMap<W, SpanTrack>;
  private now: W | null = null;

  constructor(spans: SpanBook, kind: K, who: string, words: readonly W[]) {
    this.tracks = new Map(words.map((word) => [word, spans.track(kind, who, word)]));
  }

  /** From now on this word holds; null: none does. */
  hold(word: W | null): void {
    if (word === this.now) return;
    if (this.now !== null) this.tracks.get(this.now)?.end();
    if (word !== null) this.tracks.get(word)?.begin();
    this.now = word;
  }
}
