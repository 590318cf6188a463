/** Rows of a text that arrives in pieces, whatever parts its cells. */
import type { Delimiter } from './delimiter.ts';

export interface TextRows {
  readonly delimiter: Delimiter | null;
  /** Comments near the head, and those of them that stand above the first row. */
  readonly comments: readonly string[];
  readonly commentsAboveRows: readonly string[];
  /** The last line, 1-based, where no line break ends it and it may be cut; null otherwise, or not yet known. */
  readonly unended: number | null;
  /** Lines that are no row at all. */
  readonly unreadable: number;
  push(text: string): void;
  finish(): void;
}
