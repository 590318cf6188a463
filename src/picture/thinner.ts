/** Close-ups without the moments that a straight line through those around them gives anyway, kind by kind. */
import type { CloseUp, Recording } from '../engine/result.ts';
import { Cone } from './cone.ts';
import { byKind } from './kinds.ts';
import { scaleOver } from './levels.ts';

/** What counts as a straight line, of the range of a kind within the close-up: the first that leaves few enough values. */
const straight_ratio = [1e-3, 2e-3, 4e-3, 8e-3, 16e-3, 32e-3];

/** Values of all close-ups together. */
const mostValues = 800_000;

/** A close-up as lines. Each kind of channel (kinds.ts) has moments of its own: banks ring where the rest is quiet. */
export interface Lines extends CloseUp {
  /** Of each kind, the places in `time_s` of the moments that its lines join. */
  readonly kept: readonly (readonly number[])[];
}

export interface Thinned {
  readonly lines: readonly Lines[];
  /** How far a value may lie beside its line, of the range of its kind within the close-up. */
  readonly straight_ratio: number;
}

/** The close-ups of a recording, few enough values for a page. */
export function thinned({ channels, closeUps }: Pick<Recording, 'channels' | 'closeUps'>): Thinned {
  const kinds = byKind(channels);
  const parts = closeUps.map(({ time_s, values }) =>
    kinds.map((places) => {
      const columns = places.map((c) => values[c]!);
      return { time_s, columns, range: scaleOver(columns, 2).step };
    }),
  );
  const keptWith = (ratio: number): number[][][] =>
    parts.map((kind) => kind.map(({ time_s, columns, range }) => keptOf(time_s, columns, ratio * range)));
  const few = (kept: readonly (readonly (readonly number[])[])[]): boolean =>
    kept.reduce((sum, part) => sum + countOf(part, kinds), 0) <= mostValues;
  let [ratio = 0, ...wider] = straight_ratio;
  let kept = keptWith(ratio);
  while (!few(kept) && wider.length > 0) {
    [ratio = ratio, ...wider] = wider;
    kept = keptWith(ratio);
  }
  return { straight_ratio: ratio, lines: closeUps.map((closeUp, k) => linesOf(closeUp, kept[k]!)) };
}

function countOf(kept: readonly (readonly number[])[], kinds: readonly (readonly number[])[]): number {
  return kept.reduce((sum, moments, j) => sum + moments.length * kinds[j]!.length, 0);
}

/**
 * First and last moment and as few between that every column stays within `within` of its value on the straight lines
 * between what is kept; by place.
 */
export function keptOf(time_s: Float64Array, columns: readonly Float32Array[], within: number): number[] {
  const kept = [0];
  const last = time_s.length - 1;
  const cone = new Cone(time_s, columns, within);
  for (let from = 0; from < last; ) {
    cone.open(from);
    let to = from + 1;
    while (to < last && cone.reachesPast(to)) to += 1;
    kept.push(to);
    from = to;
  }
  return kept;
}

/** The moments that any kind keeps. */
function linesOf({ time_s, values }: CloseUp, kept: readonly (readonly number[])[]): Lines {
  const moments = [...new Set(kept.flat())].sort((a, b) => a - b);
  const place = new Map(moments.map((moment, k) => [moment, k]));
  return {
    time_s: Float64Array.from(moments, (moment) => time_s[moment]!),
    values: values.map((column) => Float32Array.from(moments, (moment) => column[moment]!)),
    kept: kept.map((own) => own.map((moment) => place.get(moment)!)),
  };
}
