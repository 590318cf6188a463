/** A cell of a matrix, and the worst of some. */
import type { RunOutcome, TrialFinding } from '../trials/run-outcome.ts';
import { isPass, isWorse, type Letter } from '../trials/states.ts';
import type { Trial } from '../trials/trial.ts';

export interface MatrixCell {
  readonly fault: string;
  readonly redundancy: string;
  readonly corner: string;
  readonly letter: Letter;
  readonly verdict: RunOutcome['verdict'];
  readonly status: RunOutcome['status'];
  /** The limit that decides, or what does where no limit does; the four below are that limit's own. */
  readonly binding: string;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  readonly headroom_ratio: number | null;
  readonly node: string | null;
  readonly summary: string;
  /** What a pass rests on, and what the reader of its files warned of. */
  readonly conditions: readonly string[];
  readonly warnings: readonly string[];
  /** Where it collapsed, from what that is read. */
  readonly collapse: string | null;
  /** How much later than written its fault came, the worst of the moments tried [s]. */
  readonly later_s: number;
  /** Why the run shows nothing of its fault: it was not tried. null where it does. */
  readonly unfelt: string | null;
  /** The limits that the study shows, whatever decides; missing where it shows none. */
  readonly shown?: readonly TrialFinding[];
  readonly trial: Trial<'run'>;
  readonly replay: string;
}

/** The worst of some cells: by letter, then by the headroom of the limit that decides. */
export function worstOf(cells: readonly MatrixCell[]): MatrixCell {
  // What fails without a headroom, a count, lies furthest beyond; what passes without one is closest to nothing.
  const room = ({ letter, headroom_ratio }: MatrixCell): number =>
    headroom_ratio ?? (isPass(letter) ? Number.MAX_VALUE : -Number.MAX_VALUE);
  return cells.reduce((a, b) =>
    isWorse(b.letter, a.letter) || (a.letter === b.letter && room(b) < room(a)) ? b : a,
  );
}
