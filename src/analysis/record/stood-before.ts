/** What is known of the time before the run. */
import { disturbing } from './applies.ts';
import type { Case } from './case.ts';
import { once } from './once.ts';

/**
 * Until when the cabinet stood where the run found it, having stood there for ever: it began settled, and its load stands still until
 * it does its one thing. null where that is not known: a load that swings or was recorded was somewhere else before, and of what
 * happened before the judged window nobody saw what came of it.
 */
export function stoodUntil_s(c: Pick<Case, 'scenario' | 'demand' | 'result'>): number | null {
  const { scenario, demand, result } = c;
  const { content, peak_W, low_W } = demand;
  if (scenario.start !== 'settled' || content == null || (content.repeats && peak_W !== low_W)) return null;
  let until_s = Math.min(demand.nextKink(-1) * scenario.tick_s, result.window.to_s);
  for (const { kind, from_s } of result.spans) if (disturbing.has(kind)) until_s = Math.min(until_s, from_s);
  return until_s > result.window.from_s ? until_s : null;
}

/** Where a channel stood for ever before the run; null where that is not known. */
export function standingOf(c: Case, channel: string): number | null {
  const { mean } = c.result.recording;
  const index = placesOf(c.result.recording).get(channel);
  return index === undefined || stoodUntil_s(c) === null ? null : (mean[index]![0] ?? null);
}

const placesOf = once(({ channels }: Case['result']['recording']) => {
  return new Map(channels.map(({ id }, index) => [id, index]));
});
