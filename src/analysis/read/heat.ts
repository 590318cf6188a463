/**
 * How warm a part gets, by the laws of the slow pass. Of a load that goes on as it is: its end. Of a run with events: the highest of its
 * course through them, begun as warm as what was before leaves it for good, and of the end of what goes on. Minutes on
 * batteries do not heat a bar of half an hour as for good.
 */

import type { Result } from '../../engine/result.ts';
import { march } from '../../slow/march.ts';
import type { SlowLaw } from '../../slow/slow-law.ts';
import { disturbing } from '../record/applies.ts';
import type { Case } from '../record/case.ts';
import { harderSquare, squareGoingOn } from '../record/going-on.ts';
import { once } from '../record/once.ts';
import { rmsUntil, squareCourse } from '../record/square-course.ts';
import { standingOf } from '../record/stood-before.ts';

/** Error of a piece of the course, in the part's own unit: kelvin. */
const bound_K = 1e-3;

export interface Warmest {
  readonly value: number;
  /** The RMS that heats it: of all of the window, of what goes on, or of the piece at whose end it is warmest. */
  readonly rms: number;
  /** When it is warmest on the way; null where that is at the end of what goes on, or went on before. */
  readonly time_s: number | null;
}

/** `ends`: where an RMS leads for good; `law`: how it gets there. null where nothing of the channel was recorded. */
export function warmest(
  c: Case,
  channel: string,
  ends: (rms: number) => number,
  law: (rms: number) => SlowLaw | null,
): Warmest | null {
  const harder = harderSquare(c, channel);
  if (harder === null) return null;
  const pieces = squareCourse(c, channel);
  const first_s = firstEvent_s(c.result);
  // As if every limit applied all the time, nothing is told apart: there is no other value to tell.
  if (first_s !== null && c.applies.starts.length === 0) return null;
  const stood = standingOf(c, channel);
  if (first_s === null || pieces.length < 2) {
    const rms = Math.max(harder.rms, Math.abs(stood ?? 0));
    return { value: ends(rms), rms, time_s: null };
  }
  const last = squareGoingOn(c, channel)?.rms ?? null;
  const before =
    pieces.filter(({ to_s }) => to_s <= first_s + 1e-9).at(-1)?.rms ??
    untilFirst(c, channel, first_s) ??
    last ??
    harder.rms;
  const first = stood === null ? before : Math.abs(stood);
  let found: Warmest = { value: ends(first), rms: first, time_s: null };
  if (last !== null && ends(last) > found.value) found = { value: ends(last), rms: last, time_s: null };
  let x = ends(first);
  for (const { from_s, to_s, rms } of pieces) {
    // What was before is in the beginning already, but where that is what the cabinet stood at.
    if (stood === null && from_s < first_s - 1e-9 && to_s <= first_s + 1e-9) continue;
    const next = law(rms);
    if (next === null) break;
    x = march(next, x, to_s - from_s, bound_K);
    if (x > found.value + bound_K) found = { value: x, rms, time_s: to_s };
  }
  return found;
}

/** What heated it before the first event, where no whole round lies before that: a part of one says nothing of a load that swings. */
function untilFirst(c: Case, channel: string, first_s: number): number | null {
  return c.period_s === null ? rmsUntil(c, channel, first_s) : null;
}

/** When the first unit left or came back, batteries took the load, or something was altered within the window; null where nothing was. */
const firstEvent_s = once((result: Result): number | null => {
  const { from_s, to_s } = result.window;
  const moments = result.spans.flatMap((span) =>
    disturbing.has(span.kind) ? [span.from_s, ...(span.open ? [] : [span.to_s])] : [],
  );
  const within = moments.filter((at_s) => at_s > from_s && at_s < to_s);
  return within.length === 0 ? null : Math.min(...within);
});
