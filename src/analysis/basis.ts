/**
 * The basis of a verdict: everything it rests on that is not an equation. Whatever was assumed, changed, waived,
 * shortened or chosen stands here once, for text, page and JSON alike.
 */

export type BasisKind =
  /** A decision rule, or what it is not guarded against. */
  | 'rule'
  /** Taken for granted where the input leaves it open. */
  | 'assumed'
  /** A value that differs from the file that states it. */
  | 'changed'
  /** A limits file that differs from the shipped one. */
  | 'limits'
  /** A limit that somebody waives. */
  | 'waived'
  /** A condition stated in the scenario. */
  | 'stated'
  /** Time that is left out or was never run. */
  | 'shortened'
  /** Load that was asked for and not served. */
  | 'unserved'
  /** An option of the reader's: stretch, edges, copies, day. */
  | 'chosen'
  /** A cycle judged as if it went on. */
  | 'repeated'
  /** What the reader of the files warned of. */
  | 'warned';

export interface BasisEntry {
  readonly kind: BasisKind;
  /** What it is, one phrase with its numbers and units. */
  readonly what: string;
  /** Who says so: a role, a file, an option; null where nobody is named. */
  readonly by: string | null;
  readonly reason: string | null;
  /** Day or place it holds from; null where none is stated. */
  readonly since: string | null;
  /** It makes a pass one with conditions. */
  readonly conditions: boolean;
}
