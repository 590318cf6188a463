import { type Delimiter, delimiterOf } from './delimiter.ts';
import { splitRow } from './split-row.ts';

/** Lines looked at before the delimiter is chosen. */
const headLines = 64;

const comment = /^\s*(?:#|\/\/|%)/;

/**
 * Rows of a delimited text that arrives in pieces. Blank lines and lines that start with #, // or % are passed
 * over; the latter are kept as comments. The delimiter is chosen from the first lines and kept.
 */
export class CsvRows {
  delimiter: Delimiter | null = null;
  /** Comments near the head; later ones are counted only. */
  readonly comments: string[] = [];
  commentsCount = 0;
  private readonly take: (row: readonly string[], line: number) => void;
  private rest = '';
  private line = 0;
  private readonly head: { readonly text: string; readonly line: number }[] = [];

  /** `take` gets each row with its line, 1-based. */
  constructor(take: (row: readonly string[], line: number) => void) {
    this.take = take;
  }

  push(text: string): void {
    const all = this.rest === '' ? text : this.rest + text;
    // A lone \r at the end may be half a line break.
    const usable = all.endsWith('\r') ? all.length - 1 : all.length;
    const marks = { quotes: all.includes('"'), returns: all.includes('\r') };
    let from = 0;
    for (;;) {
      const end = lineEnd(all, from, usable, marks);
      if (end < 0) break;
      const both = all.charCodeAt(end) === 13 && all.charCodeAt(end + 1) === 10;
      this.takeLine(all.slice(from, end));
      from = end + (both ? 2 : 1);
    }
    this.rest = all.slice(from);
  }

  finish(): void {
    const rest = this.rest.replace(/\r$/, '');
    this.rest = '';
    for (const line of rest.split(/\r\n|\r|\n/)) if (line !== '') this.takeLine(line);
    this.choose();
  }

  private takeLine(text: string): void {
    this.line++;
    if (text.trim() === '') return;
    if (comment.test(text)) {
      this.commentsCount++;
      if (this.comments.length < headLines) this.comments.push(text.replace(comment, '').trim());
      return;
    }
    if (this.delimiter !== null) {
      this.take(splitRow(text, this.delimiter), this.line);
      return;
    }
    this.head.push({ text, line: this.line });
    if (this.head.length === headLines) this.choose();
  }

  private choose(): void {
    if (this.delimiter !== null || this.head.length === 0) return;
    this.delimiter = delimiterOf(this.head.map(({ text }) => text)) ?? ',';
    for (const { text, line } of this.head) this.take(splitRow(text, this.delimiter), line);
    this.head.length = 0;
  }
}

/** Marks that a piece of text holds at all: looked for once, not at every line. */
interface Marks {
  readonly quotes: boolean;
  readonly returns: boolean;
}

/** End of the line that begins at `from`, or −1: quotes that are open hold line breaks. */
function lineEnd(all: string, from: number, usable: number, marks: Marks): number {
  let at = from;
  for (;;) {
    const lf = all.indexOf('\n', at);
    const cr = marks.returns ? all.indexOf('\r', at) : -1;
    const end = cr >= 0 && (lf < 0 || cr < lf) ? cr : lf;
    if (end < 0 || end >= usable) return -1;
    if (!marks.quotes || evenQuotes(all, from, end)) return end;
    at = end + 1;
  }
}

function evenQuotes(all: string, from: number, to: number): boolean {
  let even = true;
  for (let i = from; i < to; i++) if (all.charCodeAt(i) === 34) even = !even;
  return even;
}
