/** Close-ups without the moments that a straight line through those around them gives anyway. */
import type { Channel } from '../channels/channel.ts';
import type { CloseUp, Recording } from '../engine/result.ts';
import { byKind } from './kinds.ts';
import { scaleOver } from './levels.ts';

/** What counts as a straight line, of the range of a kind within the close-up: the first that leaves few enough values. */
const straight = [1e-3, 2e-3, 4e-3, 8e-3, 16e-3, 32e-3];

/** Values of all close-ups together. */
const mostValues = 1_200_000;

/** Longest stretch that one straight line stands for [moments]. */
const longest = 64;

/** The close-ups of a recording, few enough values for a page. */
export function thinned({ channels, closeUps }: Recording): readonly CloseUp[] {
  let fewer: readonly CloseUp[] = closeUps;
  for (const share of straight) {
    fewer = closeUps.map((closeUp) => thinner(closeUp, tolerances(channels, closeUp, share)));
    const moments = fewer.reduce((sum, { time_s }) => sum + time_s.length, 0);
    if (moments * channels.length <= mostValues) break;
  }
  return fewer;
}

/** How far each channel of a close-up may lie beside a straight line. */
function tolerances(channels: readonly Channel[], { values }: CloseUp, share: number): readonly number[] {
  const within = channels.map(() => 0);
  for (const places of byKind(channels)) {
    const range = scaleOver(
      places.map((c) => values[c]!),
      2,
    ).step;
    for (const c of places) within[c] = share * range;
  }
  return within;
}

/**
 * Keeps first and last moment and as many between that every channel stays within `within` of its value, by the channel's
 * place, on the straight lines between what is kept.
 */
export function thinner({ time_s, values }: CloseUp, within: readonly number[]): CloseUp {
  const kept = [0];
  const last = time_s.length - 1;
  let from = 0;
  while (from < last) {
    let to = from + 1;
    while (to < Math.min(last, from + longest) && isStraight(time_s, values, within, from, to + 1)) to += 1;
    kept.push(to);
    from = to;
  }
  return {
    time_s: Float64Array.from(kept, (k) => time_s[k]!),
    values: values.map((column) => Float32Array.from(kept, (k) => column[k]!)),
  };
}

/** Every value between two moments lies near the straight line that joins them; one that is no number never does. */
function isStraight(
  time_s: Float64Array,
  values: readonly Float32Array[],
  within: readonly number[],
  from: number,
  to: number,
): boolean {
  const span_s = time_s[to]! - time_s[from]!;
  return values.every((column, c) => {
    const start = column[from]!;
    const slope = (column[to]! - start) / span_s;
    for (let k = from + 1; k < to; k += 1) {
      const away = Math.abs(column[k]! - start - slope * (time_s[k]! - time_s[from]!));
      if (!(away <= within[c]!)) return false;
    }
    return true;
  });
}
