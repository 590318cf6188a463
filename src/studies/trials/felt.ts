/**
 * Whether a run shows the events that a study added to its scenario. A fault that falls outside the judged window, or
 * that changed nothing, was not tried: what passes then says nothing about it.
 */

import { formatQuantity } from '../../base/quantity.ts';
import type { Result } from '../../engine/result.ts';
import type { RecordedSpan, SpanKind } from '../../events/spans.ts';
import type { OccurrenceKind } from '../../scenario/occurrences.ts';
import type { Change, EventSpec, Scenario } from '../../scenario/scenario.ts';

/** What an event leaves in the record where it has changed something. */
const marks: ReadonlySet<SpanKind> = new Set(['altered', 'out', 'short', 'ac-lost', 'ac-told-lost']);

/** What ends something that an earlier event began; the end itself may take its time, a restart of seconds. */
const waysBack: ReadonlySet<OccurrenceKind> = new Set(['ac-return', 'shelf-join', 'sled-on']);

/** How long after an event its mark may come: the line's state is told with a delay [s]. */
const late_s = 0.1;

/** Why the run shows nothing of an added event, one phrase; null where it shows all of them. */
export function unfelt(
  scenario: Scenario,
  changes: readonly Change[],
  { window, spans }: Pick<Result, 'window' | 'spans'>,
): string | null {
  const added = new Set(changes.filter(({ path }) => path === 'events.add').map(({ value }) => named(value)));
  for (const event of scenario.events) {
    if (!added.has(`${event.what} ${event.unit}`)) continue;
    const name = `${event.what} ${event.unit} at ${time(event.at_s)}`;
    if (event.at_s < window.from_s || event.at_s >= window.to_s) {
      return `${name} falls outside the judged window, ${time(window.from_s)} to ${time(window.to_s)}`;
    }
    const marked = spans.some((span) => marks.has(span.kind) && isMarkOf(event, span, scenario.tick_s));
    if (!marked) return `${name} changed nothing`;
  }
  return null;
}

/** A span that begins or ends with the event or just after it; for a way back also one that holds then. */
function isMarkOf(event: EventSpec, { from_s, to_s, open }: RecordedSpan, tick_s: number): boolean {
  const { at_s } = event;
  const until_s = at_s + (event.over_s ?? 0) + (event.for_s ?? 0) + late_s;
  const near = (time_s: number): boolean => time_s >= at_s - tick_s && time_s <= until_s;
  const holds = waysBack.has(event.what) && from_s < at_s && to_s > at_s;
  return holds || near(from_s) || (!open && near(to_s));
}

/** What and whom of an event as written, `shelf-trip S4 at 1 s`. */
function named(event: string): string {
  return event.trim().split(/\s+/).slice(0, 2).join(' ');
}

function time(time_s: number): string {
  return formatQuantity(time_s, 'time', 6);
}
