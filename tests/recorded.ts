/** A span as a result holds it, for tests that build their own. */
import type { RecordedSpan, SpanKind, WhatOf } from '../src/events/spans.ts';

/** It held from `from_s` to `to_s`; to the end of the run where that is null, which then is at `end_s`. */
export function spanOf<K extends SpanKind>(
  kind: K,
  who: string,
  what: WhatOf<K>,
  from_s: number,
  to_s: number | null = null,
  end_s = 10,
): RecordedSpan {
  const until_s = to_s ?? end_s;
  return {
    kind,
    who,
    what,
    from_s,
    to_s: until_s,
    open: to_s === null,
    count: 1,
    held_s: until_s - from_s,
    amount: null,
    moved_to_s: from_s,
  };
}
