/**
 * What goes on, where something changed on the way: mean and RMS of the last rounds of the load alone. Those of the whole
 * window hold the time before too, which may have been an easier one.
 */
import type { MeanSquare } from '../../engine/result.ts';
import { type Case, meanSquareOf, repeated } from './case.ts';
import { lastRounds } from './cycle.ts';

/** A channel over the window, or over the rounds that go on where its RMS is higher there; null where it has none. */
export function harderSquare(c: Case, channel: string): MeanSquare | null {
  const whole = meanSquareOf(c.result, channel);
  const last = squareGoingOn(c, channel);
  return whole === null || last === null || whole.rms >= last.rms ? whole : last;
}

/** Whether the rounds that go on, after a disturbance, have an RMS of their own. */
export function isGoingOnKnown(c: Case): boolean {
  return repeated(c)?.disturbed !== true || roundsGoingOn(c) !== null;
}

/** A channel over the rounds that go on; null where none of their own are known. */
export function squareGoingOn(c: Case, channel: string): MeanSquare | null {
  return roundsGoingOn(c)?.find((square) => square.channel === channel) ?? null;
}

/** From the first round that begins clear of what changed to the window's end. */
function roundsGoingOn(c: Case): readonly MeanSquare[] | null {
  const span = lastRounds(c);
  if (typeof span === 'string') return null;
  return c.result.rounds.find(({ from_s }) => from_s >= span.from_s - 1e-9)?.squares ?? null;
}

/** RMS of values, one per 10 ms mean, over what goes on; null where nothing does. */
export function rmsOfMeansGoingOn(c: Case, values: Float64Array): number | null {
  const span = lastRounds(c);
  if (typeof span === 'string') return null;
  const { from_s, width_s } = c.result.means;
  const first = Math.max(0, Math.ceil((span.from_s - from_s) / width_s - 1e-6));
  const end = Math.min(values.length, Math.floor((span.to_s - from_s) / width_s + 1e-6));
  if (end <= first) return null;
  let square = 0;
  for (let j = first; j < end; j++) square += values[j]! * values[j]!;
  return Math.sqrt(square / (end - first));
}
