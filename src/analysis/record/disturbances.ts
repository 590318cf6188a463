/** When the cabinet was disturbed anew: an edge of the load, an event, or a shelf that stops or comes back. */
import type { LogKind } from '../../events/log.ts';
import type { Case } from './case.ts';

const disturb: ReadonlySet<LogKind> = new Set(['event', 'load-edge', 'walk-in', 'dc-stop', 'dc-restart']);

/** Moments inside the judged window, in time order, each once [s]. */
export function disturbances({ story, result: { window } }: Pick<Case, 'story' | 'result'>): number[] {
  const inside = (t: number): boolean => t >= window.from_s && t < window.to_s;
  return [...new Set(story.filter((e) => disturb.has(e.what) && inside(e.time_s)).map((e) => e.time_s))];
}
