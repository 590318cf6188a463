/** What is left of a stretch without others; whether stretches touch. */
import type { Span } from '../events/spans.ts';

/** What is left of `whole` without `holes` (any order, overlapping or not), in time order. */
export function without(whole: Span, holes: readonly Span[]): Span[] {
  const sorted = [...holes].sort((a, b) => a.from_s - b.from_s);
  const rest: Span[] = [];
  let from_s = whole.from_s;
  for (const hole of sorted) {
    if (hole.from_s > from_s) rest.push({ from_s, to_s: Math.min(hole.from_s, whole.to_s) });
    from_s = Math.max(from_s, hole.to_s);
    if (from_s >= whole.to_s) break;
  }
  if (from_s < whole.to_s) rest.push({ from_s, to_s: whole.to_s });
  return rest.filter((span) => span.to_s > span.from_s);
}

/** Whether a stretch from…to touches any of the spans. */
export function touches(spans: readonly Span[], from_s: number, to_s: number): boolean {
  return spans.some((span) => from_s < span.to_s && to_s > span.from_s);
}

export function holds(spans: readonly Span[], time_s: number): boolean {
  return spans.some((span) => time_s >= span.from_s && time_s < span.to_s);
}
