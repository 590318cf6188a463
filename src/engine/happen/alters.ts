/**
 * Records what an event has made of a parameter: a span where it is no longer what it was. An event that leaves it as
 * it was, of zero size or said twice, records nothing, for nothing has happened.
 */
import { type Happening, isFirst } from './happening.ts';

/** Numbers that differ by no more than this share of the larger are one: the same value, written in another unit. */
const sameWithin = 1e-9;

/** What the event sets of `who` is now `value`; `normal` is what it is without events. null: nothing is set. */
export function alters(happening: Happening, who: string, value: number | null, normal: number | null): void {
  const { event, along, log } = happening;
  const track = log.spans.track('altered', who, event.what);
  if (value === null || isSame(value, normal)) track.end();
  else if (!track.holds) track.begin(value);
  else if (isSame(value, track.amount)) return;
  // Another event, or the end of one of several, is a change of its own; a ramp on its way is not.
  else if (along === 0 || isFirst(happening)) track.renew(value);
  else track.move(value);
}

/** The event has switched something of `who`, or it is switched back. */
export function switches({ event, log }: Happening, who: string, on: boolean): void {
  log.spans.track('altered', who, event.what).set(on);
}

function isSame(a: number, b: number | null): boolean {
  return b !== null && Math.abs(a - b) <= sameWithin * Math.max(Math.abs(a), Math.abs(b));
}
