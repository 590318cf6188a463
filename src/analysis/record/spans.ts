/** What is left of a stretch without others; whether stretches touch. */
import type { Span } from '../../events/spans.ts';

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

/** Whether a stretch from…to touches any of the spans. Asked of every 10 ms of a run, as is the next: without a closure each. */
export function touches(spans: readonly Span[], from_s: number, to_s: number): boolean {
  for (const span of spans) if (from_s < span.to_s && to_s > span.from_s) return true;
  return false;
}

export function holds(spans: readonly Span[], time_s: number): boolean {
  for (const span of spans) if (time_s >= span.from_s && time_s < span.to_s) return true;
  return false;
}

/** The same time as `spans` cover, in stretches that do not touch, in time order. */
export function joined(spans: readonly Span[]): Span[] {
  const sorted = [...spans].sort((a, b) => a.from_s - b.from_s);
  const out: { from_s: number; to_s: number }[] = [];
  for (const { from_s, to_s } of sorted) {
    const last = out.at(-1);
    if (last !== undefined && from_s <= last.to_s) last.to_s = Math.max(last.to_s, to_s);
    else out.push({ from_s, to_s });
  }
  return out;
}

/** Part of a stretch that spans cover, 0 to 1. */
export function shareOf(whole: Span, spans: readonly Span[]): number {
  const length_s = whole.to_s - whole.from_s;
  if (!(length_s > 0)) return 0;
  let left_s = 0;
  for (const { from_s, to_s } of without(whole, spans)) left_s += to_s - from_s;
  return 1 - left_s / length_s;
}
