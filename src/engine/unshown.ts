/**
 * What was asked for and the judged window does not show: a load that has not moved yet or had moved before, an event
 * that never came, or came too late for anything to follow from it. The engine knows the plan and the window; what
 * judges the run reads this and never the plan.
 */
import type { Content, Demand } from '../loads/demand.ts';
import type { EventSpec } from '../scenario/scenario.ts';

/** Time that a move or an event needs after it, for its consequences: batteries carry, sharing settles [s]. */
export const aftermath_s = 0.5;

export interface ShownWindow {
  readonly from_s: number;
  readonly to_s: number;
}

/** One phrase each; empty where the window shows all that was asked for. */
export function unshown(
  events: readonly EventSpec[],
  content: Demand['content'],
  tick_s: number,
  window: ShownWindow,
): string[] {
  const phrases = events.flatMap((event) => {
    const { at_s, what, unit } = event;
    const name = `${what} ${unit} at ${seconds(at_s)}`;
    const came_s = at_s + (event.over_s ?? 0);
    const over_s = came_s + (event.for_s ?? 0);
    if (at_s < window.from_s)
      return [`${name} lies before the judged window, which begins at ${seconds(window.from_s)}`];
    if (at_s >= window.to_s)
      return [`${name} lies after the judged window, which ends at ${seconds(window.to_s)}`];
    if (over_s + aftermath_s > window.to_s + tick_s) {
      const ends = over_s > at_s ? `, over at ${seconds(over_s)},` : '';
      return [
        `${name}${ends} has less than ${aftermath_s} s after it: the judged window ends at ${seconds(window.to_s)}`,
      ];
    }
    return [];
  });
  if (content === undefined || content === null) return phrases;
  const from_s = content.from_tick * tick_s;
  const to_s = content.to_tick * tick_s;
  // What repeats needs one round of itself, wherever in the window; what moves once needs its own time.
  if (content.repeats) {
    if (to_s - from_s > window.to_s - window.from_s + tick_s) {
      phrases.push(`${content.what} of ${seconds(to_s - from_s)} is longer than the judged window`);
    }
    return [...phrases, ...unshownCrest(content, tick_s, window)];
  }
  if (from_s < window.from_s) {
    phrases.push(
      `${content.what} begins at ${seconds(from_s)}, before the judged window at ${seconds(window.from_s)}`,
    );
  }
  if (to_s + aftermath_s > window.to_s + tick_s) {
    phrases.push(
      `${content.what} is over at ${seconds(to_s)} and needs ${aftermath_s} s after it; the judged window ends at ${seconds(window.to_s)}`,
    );
  }
  return phrases;
}

/** A slow swing whose top comes after the window has shown less than it will. */
function unshownCrest({ crest }: Content, tick_s: number, window: ShownWindow): string[] {
  if (crest === undefined || crest === null) return [];
  const top = crest.next(Math.round(window.from_s / tick_s));
  const to_s = top.to_tick * tick_s;
  if (to_s <= window.to_s + tick_s) return [];
  return [
    `${crest.what} comes at ${seconds(top.from_tick * tick_s)}; the judged window ends at ${seconds(window.to_s)}, and a run of ${seconds(to_s)} would show it`,
  ];
}

function seconds(time_s: number): string {
  return `${Number(time_s.toPrecision(6))} s`;
}
