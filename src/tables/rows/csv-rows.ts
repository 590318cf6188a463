import Papa from 'papaparse';
import { type Delimiter, delimiterOf } from './delimiter.ts';
import { parsable } from './parsable.ts';
import type { TextRows } from './text-rows.ts';

/** Lines looked at before the delimiter is chosen. */
const headLines = 64;

/** Lines handed to the parser at a time: enough that a call costs nothing, few enough that rows die young. */
const batchLines = 1000;

/** A quoted cell longer than this is a quote that nobody closed: its line ends at the first line break. */
const longestLine = 1 << 16;

const comment = /^\s*(?:#|\/\/|%)/;

/**
 * Rows of a delimited text that arrives in pieces, read by papaparse in batches of lines. Blank lines and lines
 * that start with #, // or % are passed over; the latter are kept as comments. The delimiter is chosen from the
 * first lines and kept.
 */
export class CsvRows implements TextRows {
  delimiter: Delimiter | null = null;
  /** Comments near the head; later ones are counted only. */
  readonly comments: string[] = [];
  commentsCount = 0;
  readonly unreadable = 0;
  unended: number | null = null;
  private readonly take: (row: readonly string[], line: number) => void;
  private readonly remark: (text: string, line: number) => void;
  private readonly swallow: (text: string, line: number) => void;
  private above: number | null = null;
  private rest = '';
  private line = 0;
  private texts: string[] = [];
  private lines: number[] = [];

  /**
   * `take` gets each row with its line, 1-based; `remark` each comment, as soon as it is met; `swallow` what a quote holds
   * that closes in a later line.
   */
  constructor(
    take: (row: readonly string[], line: number) => void,
    remark: (text: string, line: number) => void = () => undefined,
    swallow: (text: string, line: number) => void = () => undefined,
  ) {
    this.take = take;
    this.remark = remark;
    this.swallow = swallow;
  }

  get commentsAboveRows(): readonly string[] {
    return this.comments.slice(0, this.above ?? 0);
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
    const lines = rest.split(/\r\n|\r|\n/).filter((line) => line !== '');
    if (lines.length > 0 && rest === this.rest) this.unended = this.line + lines.length;
    this.rest = '';
    for (const line of lines) this.takeLine(line);
    this.parse();
  }

  private takeLine(text: string): void {
    this.line++;
    if (text.trim() === '') return;
    if (comment.test(text)) {
      this.commentsCount++;
      const words = text.replace(comment, '').trim();
      if (this.comments.length < headLines) this.comments.push(words);
      this.remark(words, this.line);
      return;
    }
    this.above ??= this.comments.length;
    this.texts.push(text);
    this.lines.push(this.line);
    if (text.includes('\n')) {
      this.swallow(text, this.line);
      this.line += text.split('\n').length - 1;
    }
    if (this.texts.length === (this.delimiter === null ? headLines : batchLines)) this.parse();
  }

  /** Hands the lines at hand on as rows. */
  private parse(): void {
    if (this.texts.length === 0) return;
    this.delimiter ??= delimiterOf(this.texts) ?? ',';
    const delimiter = this.delimiter;
    const texts = this.texts.map((text) => parsable(text, delimiter));
    const { lines } = this;
    this.texts = [];
    this.lines = [];
    const rows = parsed(texts.join('\n'), delimiter);
    if (rows?.length === texts.length) {
      for (let i = 0; i < rows.length; i++) this.take(rows[i]!, lines[i]!);
      return;
    }
    // A quote that opens and does not close would swallow the lines below it: one line at a time it cannot.
    for (let i = 0; i < texts.length; i++) {
      const { data } = Papa.parse<string[]>(texts[i]!, optionsOf(delimiter));
      for (const row of data) this.take(row, lines[i]!);
    }
  }
}

/** Rows of a text, or null where the parser found its quotes at fault. */
function parsed(text: string, delimiter: Delimiter): string[][] | null {
  const { data, errors } = Papa.parse<string[]>(text, optionsOf(delimiter));
  return errors.length > 0 ? null : data;
}

/** Cells of one line. */
export function cellsOf(line: string, delimiter: Delimiter): readonly string[] {
  return Papa.parse<string[]>(parsable(line, delimiter), optionsOf(delimiter)).data[0] ?? [];
}

function optionsOf(delimiter: Delimiter) {
  return { delimiter: delimiter === 'blanks' ? '\t' : delimiter, newline: '\n' } as const;
}

/** Marks that a piece of text holds at all: looked for once, not at every line. */
interface Marks {
  readonly quotes: boolean;
  readonly returns: boolean;
}

/** End of the line that begins at `from`, or −1: quotes that are open hold line breaks. */
function lineEnd(all: string, from: number, usable: number, marks: Marks): number {
  let first = -1;
  let at = from;
  let even = true;
  for (;;) {
    const lf = all.indexOf('\n', at);
    const cr = marks.returns ? all.indexOf('\r', at) : -1;
    const end = cr >= 0 && (lf < 0 || cr < lf) ? cr : lf;
    if (end < 0 || end >= usable) return first >= 0 && usable - from > longestLine ? first : -1;
    if (!marks.quotes) return end;
    for (let i = at; i < end; i++) if (all.charCodeAt(i) === 34) even = !even;
    if (even) return end;
    if (first < 0) first = end;
    if (end - from > longestLine) return first;
    at = end + 1;
  }
}
