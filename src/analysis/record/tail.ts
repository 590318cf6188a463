/**
 * What stands for a run that goes on for hours. Of a run in which nothing started, stopped or changed that is its whole window; of
 * one with events its last third, by whole rounds of the load: and whether that has settled.
 */
import { formatPercent, formatQuantity } from '../../base/quantity.ts';
import type { ChannelKind } from '../../channels/channel.ts';
import type { MeanSquare } from '../../engine/result.ts';
import type { SpanKind } from '../../events/spans.ts';
import { type Case, channelsOf } from './case.ts';
import { squareCourse } from './square-course.ts';

export interface Tail {
  readonly from_s: number;
  /** Mean and RMS from then on. */
  readonly squares: readonly MeanSquare[];
  /** Why it may not stand for what goes on; null where it does. */
  readonly unsettled: string | null;
}

/** Where the last third of a window begins. */
const late_ratio = 2 / 3;

/** An RMS that moves by less from one half to the other has settled: it heats by 3 % more or less. Common practice. */
const moves_ratio = 0.02;

/** Currents below this share of the largest of their kind heat nothing that counts. */
const counts_ratio = 0.05;

const changes: readonly SpanKind[] = [
  ...(['carrying', 'charging', 'ac-lost', 'walk-in', 'out', 'short', 'altered'] as const),
];

const heating: readonly ChannelKind[] = ['bar-current', 'tray-current', 'bank-current', 'battery-current'];

export function tailOf(c: Case): Tail {
  const { window, rounds, meanSquares } = c.result;
  const changed_s = lastChange_s(c);
  if (changed_s === null) return { from_s: window.from_s, squares: meanSquares, unsettled: null };
  const late_s = window.from_s + late_ratio * (window.to_s - window.from_s);
  const last = rounds.find(({ from_s }) => from_s >= late_s - 1e-9) ?? rounds.at(-1);
  const { from_s, squares } = last ?? { from_s: window.from_s, squares: meanSquares };
  const unsettled =
    changed_s > from_s + 1e-9
      ? `something still changes at ${formatQuantity(changed_s, 'time', 4)}, within what stands for the rest of it from ${formatQuantity(from_s, 'time', 4)} on`
      : moving(c, from_s);
  return { from_s, squares, unsettled };
}

/** When something started, stopped or changed last within the window; null where nothing did. */
function lastChange_s({ result: { spans, window } }: Case): number | null {
  const moments = spans
    .filter(({ kind }) => changes.includes(kind))
    .flatMap(({ from_s, to_s, open }) => (open ? [from_s] : [from_s, to_s]))
    .filter((at_s) => at_s > window.from_s);
  return moments.length === 0 ? null : Math.max(...moments);
}

/** Which RMS moves most from one half of the tail to the other, or into a tail of one round, where it is by more than counts. */
function moving(c: Case, from_s: number): string | null {
  let found: { readonly who: string; readonly ratio: number } | null = null;
  for (const kind of heating) {
    const pairs = channelsOf(c.result, kind).flatMap(({ owner, id }) => {
      const halves = halvesOf(c, id, from_s);
      return halves === null ? [] : [{ owner, ...halves }];
    });
    const most_A = Math.max(0, ...pairs.map(({ early, late }) => Math.max(early, late)));
    for (const { owner, early, late } of pairs) {
      const more = Math.max(early, late);
      if (!(more > 0) || more < counts_ratio * most_A) continue;
      const ratio = Math.abs(late - early) / more;
      if (ratio > (found?.ratio ?? moves_ratio)) found = { who: owner, ratio };
    }
  }
  if (found === null) return null;
  return `the RMS current of ${found.who} still moves by ${formatPercent(found.ratio, 2)} in what stands for the rest of it from ${formatQuantity(from_s, 'time', 4)} on`;
}

/** RMS over the halves of the tail, by rounds; of a tail of one round over the round before it and itself. */
function halvesOf(
  c: Case,
  channel: string,
  from_s: number,
): { readonly early: number; readonly late: number } | null {
  const pieces = squareCourse(c, channel);
  const first = pieces.findIndex((piece) => piece.from_s >= from_s - 1e-9);
  const tail = pieces.slice(tailBegin(first, pieces.length));
  if (tail.length < 2) return null;
  const half = Math.floor(tail.length / 2);
  const rms = (some: typeof tail): number => {
    const length_s = some.reduce((sum, { from_s: a, to_s: b }) => sum + b - a, 0);
    return Math.sqrt(
      some.reduce((sum, { from_s: a, to_s: b, rms: i }) => sum + (b - a) * i * i, 0) / length_s,
    );
  };
  return { early: rms(tail.slice(0, half)), late: rms(tail.slice(half)) };
}

function tailBegin(first: number, count: number): number {
  return first === count - 1 ? Math.max(0, first - 1) : first;
}
