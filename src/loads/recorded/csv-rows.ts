import Papa from 'papaparse';

/**
 * Rows of a delimited text that arrives in pieces. The delimiter is found in the first piece and kept. Empty
 * lines and lines that start with # are passed over; the latter are kept as comments.
 */
export class CsvRows {
  delimiter: string | null = null;
  readonly comments: string[] = [];
  /** Line of the first row, 1-based. */
  firstLine = 1;
  private readonly take: (row: readonly string[]) => void;
  private rest = '';
  private begun = false;

  constructor(take: (row: readonly string[]) => void) {
    this.take = take;
  }

  push(text: string): void {
    const all = this.rest + text;
    // A lone \r at the end may be half a line break; an open quote may hold one.
    const end = Math.max(all.lastIndexOf('\n'), all.lastIndexOf('\r', all.length - 2)) + 1;
    const block = all.slice(0, end);
    if (end === 0 || (block.split('"').length - 1) % 2 === 1) {
      this.rest = all;
      return;
    }
    this.rest = all.slice(end);
    this.parse(block);
  }

  finish(): void {
    if (this.rest !== '') this.parse(this.rest);
    this.rest = '';
  }

  private parse(raw: string): void {
    const block = raw.replace(/\r\n?/g, '\n');
    for (const [line] of block.matchAll(/^#.*$/gm)) this.comments.push(line.slice(1).trim());
    if (!this.begun) {
      const lines = block.split('\n');
      const first = lines.findIndex((line) => line.trim() !== '' && !line.startsWith('#'));
      this.firstLine += first < 0 ? lines.length - 1 : first;
      this.begun = first >= 0;
    }
    const parsed = Papa.parse<string[]>(block, {
      delimiter: this.delimiter ?? '',
      newline: '\n',
      comments: '#',
      skipEmptyLines: 'greedy',
    });
    if (parsed.data.length > 0) this.delimiter ??= parsed.meta.delimiter;
    for (const row of parsed.data) this.take(row);
  }
}
