/** What is known of the time before the run. */
import type { Case } from './case.ts';
import { once } from './once.ts';

/**
 * Whether the cabinet stood for ever where the run found it: it began settled, is judged from there on, and its load stands still
 * until it does its one thing. A load that swings or was recorded was somewhere else before, and nobody knows where.
 */
export function stoodBefore({
  scenario,
  demand,
  result,
}: Pick<Case, 'scenario' | 'demand' | 'result'>): boolean {
  if (scenario.start !== 'settled' || result.window.from_s !== 0) return false;
  const { content, peak_W, low_W } = demand;
  if (content == null) return false;
  return content.repeats ? peak_W === low_W : demand.nextKink(-1) > 0;
}

/** Where a channel stood for ever before the run; null where that is not known. */
export function standingOf(c: Case, channel: string): number | null {
  const { mean } = c.result.recording;
  const index = placesOf(c.result.recording).get(channel);
  return index === undefined || !stoodBefore(c) ? null : (mean[index]![0] ?? null);
}

const placesOf = once(({ channels }: Case['result']['recording']) => {
  return new Map(channels.map(({ id }, index) => [id, index]));
});
