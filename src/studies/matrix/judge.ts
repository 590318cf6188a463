/** What a matrix comes to: its worst cell, and how it ends. */
import { type End, endOf } from '../end.ts';
import { isPass, isWorse } from '../trials/states.ts';
import type { MatrixCell, MatrixReport } from './report.ts';

/** The worst of some cells: by letter, then by the headroom of the limit that decides. */
export function worstOf(cells: readonly MatrixCell[]): MatrixCell {
  // What fails without a headroom, a count, lies furthest beyond; what passes without one is closest to nothing.
  const room = ({ letter, headroom_ratio }: MatrixCell): number =>
    headroom_ratio ?? (isPass(letter) ? Number.MAX_VALUE : -Number.MAX_VALUE);
  return cells.reduce((a, b) =>
    isWorse(b.letter, a.letter) || (a.letter === b.letter && room(b) < room(a)) ? b : a,
  );
}

/** It passes where every cell does, with conditions or without. */
export function matrixEnd({ states, passed, runs }: MatrixReport): End {
  return endOf(states, passed === runs);
}
